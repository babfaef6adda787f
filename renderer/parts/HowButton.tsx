import { type ReactNode, useContext } from 'react';
import { Button, Dialog, DialogTrigger, Heading, Popover } from 'react-aria-components';
import { goodToDb } from '../../core/uncertainty/shares.ts';
import { asWritten, decimals } from '../format.ts';
import { termIn } from '../help/glossary.ts';
import type { How } from '../how/how.ts';
import { ExplainContext } from './explain.ts';
import { Glyph } from './Glyph.tsx';

export type HowButtonProps = Readonly<{
  how: How;
  label: string;
  className?: string;
  children: ReactNode;
}>;

const hundredths = (valueDb: number): string => decimals(valueDb, 2);

/** A number that can be pressed: how it was computed, from which source, and what it is good to. */
export const HowButton = ({ how, label, className = '', children }: HowButtonProps) => (
  <DialogTrigger>
    <Button className={`how-button ${className}`} aria-label={`${label}. How it was computed.`}>
      {children}
    </Button>
    <Popover className="how" placement="left top" offset={12}>
      <Dialog className="how__inside">
        {({ close }) => (
          <>
            <div className="how__head">
              <Heading slot="title" className="how__title">
                {how.title}
              </Heading>
              <Button className="icon-button" aria-label="Close" onPress={close}>
                <Glyph name="close" />
              </Button>
            </div>
            <p className="how__value">{asWritten(how.value)}</p>
            <p>{asWritten(how.words)}</p>
            <p className="how__formula">{asWritten(how.formula)}</p>
            {how.items.length > 0 && <Items items={how.items} title={how.title} />}
            {how.judged !== null && <p>{asWritten(how.judged)}</p>}
            {how.uDb !== null && <Shares shares={how.shares} uDb={how.uDb} sheet={how.sheet} />}
            <p className="how__source">{how.source}</p>
            <Explain title={how.title} onGo={close} />
          </>
        )}
      </Dialog>
    </Popover>
  </DialogTrigger>
);

/** The way to the help, where the title has a word of the trade in it. */
function Explain({ title, onGo }: Readonly<{ title: string; onGo: () => void }>) {
  const explain = useContext(ExplainContext);
  const term = termIn(title);
  if (explain === null || term === null) return null;
  return (
    <Button
      className="how__term"
      onPress={() => {
        onGo();
        explain(term.id);
      }}
    >
      {`What \u201C${term.name}\u201D means`}
    </Button>
  );
}

const Items = ({ items, title }: Readonly<{ items: How['items']; title: string }>) => (
  <table className="how__items">
    <caption className="unseen">{title}</caption>
    <tbody>
      {items.map(({ name, text }) => (
        <tr key={`${name} ${text}`}>
          <th scope="row">{name}</th>
          <td>{asWritten(text)}</td>
        </tr>
      ))}
    </tbody>
  </table>
);

type SharesProps = Readonly<{ shares: How['shares']; uDb: number; sheet: string | null }>;

/** What several parts rest on is said once, under the table. */
function sharedBasis(shares: How['shares']): string | null {
  const counts = new Map<string, number>();
  for (const { basis } of shares) counts.set(basis, (counts.get(basis) ?? 0) + 1);
  return [...counts].find(([, count]) => count > 1)?.[0] ?? null;
}

function Shares({ shares, uDb, sheet }: SharesProps) {
  const common = sharedBasis(shares);
  const own = (basis: string) =>
    common === null ? basis : basis === common ? '' : basis.replace(`; ${common}`, '');
  return (
    <div className="how__shares">
      <table>
        <caption>What it is uncertain by, standard uncertainty in dB</caption>
        <tbody>
          {shares.map((share) => (
            <tr key={share.name}>
              <th scope="row">
                {share.name}
                {own(share.basis) !== '' && <small>{own(share.basis)}</small>}
              </th>
              <td>{hundredths(share.uDb)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row">together, as the root of their squares</th>
            <td>{hundredths(uDb)}</td>
          </tr>
          <tr>
            <th scope="row">95 of 100 times within 1.96 times that</th>
            <td>{`\u00B1${hundredths(goodToDb(uDb))}`}</td>
          </tr>
        </tfoot>
      </table>
      {sheet !== null && <p className="how__source">{sheet}</p>}
    </div>
  );
}
