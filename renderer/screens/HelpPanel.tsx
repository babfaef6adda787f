import { useState } from 'react';
import {
  Button,
  Header,
  Input,
  Label,
  ListBox,
  ListBoxItem,
  ListBoxSection,
  SearchField,
} from 'react-aria-components';
import { asWritten } from '../format.ts';
import { termOf, topics } from '../help/glossary.ts';
import type { Term, Topic } from '../help/term.ts';
import { Panel } from '../parts/Panel.tsx';
import { Segments } from '../parts/Segments.tsx';
import type { HelpFace } from '../state/help-slice.ts';
import { nearness, wordsOf } from '../state/search-words.ts';
import { selectHelp } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';
import { HelpBegin } from './HelpBegin.tsx';
import { HelpKeys } from './HelpKeys.tsx';

const faces: readonly Readonly<{ key: HelpFace; text: string }>[] = [
  { key: 'terms', text: 'Words of the trade' },
  { key: 'keys', text: 'Keys' },
  { key: 'begin', text: 'First steps' },
];

/** Help over whatever is open: nothing under it is lost. */
export function HelpPanel() {
  const help = useSelected(selectHelp);
  const { helpOpened, helpClosed } = useActions();
  if (help.at === 'closed') return null;
  return (
    <Panel title="Help" isOpen onClose={helpClosed} width="widest">
      <Segments label="Help about" options={faces} chosen={help.face} onChoose={(face) => helpOpened(face)} />
      {help.face === 'terms' && <Words term={help.term} onTerm={(term) => helpOpened('terms', term)} />}
      {help.face === 'keys' && <HelpKeys />}
      {help.face === 'begin' && <HelpBegin />}
    </Panel>
  );
}

type WordsProps = Readonly<{ term: string | null; onTerm: (term: string) => void }>;

const having = (words: readonly string[]): readonly Topic[] =>
  topics
    .map((topic) => ({
      ...topic,
      terms: topic.terms.filter(({ name, also, words: said }) =>
        [`${name} ${also.join(' ')}`, said].some((text) => nearness(words, text) !== null),
      ),
    }))
    .filter(({ terms }) => terms.length > 0);

/** The glossary: a list to walk and to narrow, and beside it the word that was chosen. */
function Words({ term: id, onTerm }: WordsProps) {
  const [text, setText] = useState('');
  const shown = having(wordsOf(text));
  const first = shown[0]?.terms[0];
  const term = (id === null ? undefined : termOf(id)) ?? first ?? null;
  return (
    <div className="words">
      <div className="words__list">
        <SearchField className="field" value={text} onChange={setText} autoFocus={id === null}>
          <Label>Find a word</Label>
          <Input placeholder="tilt, C/N, suck-out" />
        </SearchField>
        <ListBox
          className="words__all"
          aria-label="Words of the trade"
          selectionMode="single"
          disallowEmptySelection
          selectionBehavior="replace"
          selectedKeys={term === null ? [] : [term.id]}
          onSelectionChange={(keys) => {
            const [key] = keys === 'all' ? [] : keys;
            if (key !== undefined) onTerm(String(key));
          }}
          autoFocus={id !== null}
          renderEmptyState={() => (
            <p className="words__none">No word of the trade has that. Try fewer letters.</p>
          )}
        >
          {shown.map((topic) => (
            <ListBoxSection key={topic.name} id={topic.name} aria-label={topic.name}>
              <Header className="words__topic">{topic.name}</Header>
              {topic.terms.map(({ id: key, name }) => (
                <ListBoxItem key={key} id={key} textValue={name} className="words__word">
                  {name}
                </ListBoxItem>
              ))}
            </ListBoxSection>
          ))}
        </ListBox>
      </div>
      {term !== null && <Word term={term} onTerm={onTerm} />}
    </div>
  );
}

/** One word: two sentences, the formula, where it is from, and what belongs beside it. */
const Word = ({ term, onTerm }: Readonly<{ term: Term; onTerm: (id: string) => void }>) => (
  <section className="word" aria-label={term.name} aria-live="polite">
    <h3 className="word__name">{term.name}</h3>
    <p className="word__words">{asWritten(term.words)}</p>
    <p className="word__formula">{asWritten(term.formula)}</p>
    <p className="word__source">{term.source}</p>
    <div className="word__see">
      <span>See also</span>
      {term.see.map((id) => (
        <Button key={id} className="word__other" onPress={() => onTerm(id)}>
          {termOf(id)?.name ?? id}
        </Button>
      ))}
    </div>
  </section>
);
