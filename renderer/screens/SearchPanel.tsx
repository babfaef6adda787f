import { useEffect, useState } from 'react';
import {
  Autocomplete,
  Dialog,
  Header,
  Heading,
  Input,
  Label,
  Menu,
  MenuItem,
  MenuSection,
  Modal,
  ModalOverlay,
  SearchField,
  Text,
} from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { useLeave } from '../parts/unsaved.ts';
import { goTo } from '../state/search-commands.ts';
import { resultsOf } from '../state/search-results.ts';
import { selectFound } from '../state/select.ts';
import { useActions, useBench, useSelected } from '../state/use-workbench.ts';

/** How long a hand rests before the archive is asked. */
const REST_MS = 120;

/** Everything by its name: type, walk the results with the arrows, Enter goes there. */
export function SearchPanel() {
  const { searchClosed } = useActions();
  // A field would only be emptied by the first Escape; here the hand wants to be back at its work.
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      if (event.key !== 'Escape') return;
      event.preventDefault();
      event.stopPropagation();
      searchClosed();
    };
    document.addEventListener('keydown', pressed, true);
    return () => document.removeEventListener('keydown', pressed, true);
  }, [searchClosed]);
  return (
    <ModalOverlay
      className="veil veil--top"
      isDismissable
      isOpen
      onOpenChange={(open) => !open && searchClosed()}
    >
      <Modal className="panel panel--search">
        <Dialog className="search">
          <Heading slot="title" className="unseen">
            Search everything
          </Heading>
          <SearchBox />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function SearchBox() {
  const { store, workbench, now } = useBench();
  const found = useSelected(selectFound);
  const leave = useLeave();
  const [text, setText] = useState('');
  useEffect(() => {
    const rest = setTimeout(() => void workbench.searchRecords(text, now()), REST_MS);
    return () => clearTimeout(rest);
  }, [text, workbench, now]);
  const groups = resultsOf(store.getState(), text, now());
  const isAsking = text.trim() !== '' && found.forText !== text;
  const results = groups.flatMap((group) => group.results);
  return (
    <Autocomplete inputValue={text} onInputChange={setText}>
      <SearchField className="search__field" autoFocus>
        <Label className="unseen">Search everything</Label>
        <Glyph name="search" />
        <Input placeholder="Station, operator, note, day, word of the trade, screen" />
      </SearchField>
      <Menu
        className="search__results"
        aria-label="Results"
        onAction={(key) => {
          const result = results.find(({ id }) => id === key);
          if (result !== undefined) leave(() => void goTo(store, workbench, result.goal));
        }}
        renderEmptyState={() => (isAsking ? 'Looking through the archive.' : <Nothing text={text} />)}
      >
        {groups.map(({ name, results: ofGroup }) => (
          <MenuSection key={name} id={name} className="search__group" aria-label={name}>
            <Header className="search__kind">{name}</Header>
            {ofGroup.map((result) => (
              <MenuItem key={result.id} id={result.id} textValue={result.name} className="search__result">
                <Text slot="label" className="search__name">
                  {result.name}
                </Text>
                {result.about !== '' && (
                  <Text slot="description" className="search__about">
                    {result.about}
                  </Text>
                )}
              </MenuItem>
            ))}
          </MenuSection>
        ))}
      </Menu>
      <p className="search__foot" role="status">
        {found.help !== '' && found.forText === text
          ? `Visits and sweeps could not be looked through. ${found.help}`
          : text.trim() === ''
            ? 'A day may be 2026-11-24, 24 November or yesterday; the arrows walk, Enter goes, Escape closes.'
            : `${results.length === 0 ? 'Nothing' : results.length} found${isAsking ? ' so far' : ''}.`}
      </p>
    </Autocomplete>
  );
}

/** An empty list says what else could be tried. */
const Nothing = ({ text }: Readonly<{ text: string }>) => (
  <span className="search__none">
    {`Nothing has \u201C${text.trim()}\u201D. Fewer letters find more; a day is written 2026-11-24 or 24 November. Levels are not looked into.`}
  </span>
);
