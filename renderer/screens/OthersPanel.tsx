import { GridList, GridListItem } from 'react-aria-components';
import type { Design } from '../../core/files/station.ts';
import type { Proposal } from '../../core/propose/propose.ts';
import { capital, counted, plugIn, sizeDb } from '../format.ts';
import { howAlternative } from '../how/proposal.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { HowText } from '../parts/HowText.tsx';
import { Panel } from '../parts/Panel.tsx';
import { useActions } from '../state/use-workbench.ts';

export type OthersPanelProps = Readonly<{ proposal: Proposal; design: Design }>;

/** What else was nearly as good. Picking one shows its changes and its predicted line on the sheet. */
export function OthersPanel({ proposal, design }: OthersPanelProps) {
  const { dialogOpened, choicePicked } = useActions();
  const choices = [
    { key: 'recommended', choice: proposal.recommended, index: null },
    ...proposal.alternatives.map((choice, index) => ({ key: String(index), choice, index })),
  ];
  return (
    <Panel
      title="What a change would give"
      isOpen
      onClose={() => dialogOpened({ open: 'none' })}
      width="wide"
    >
      <GridList
        className="others"
        aria-label="Other combinations"
        autoFocus
        onAction={(key) => {
          choicePicked(key === 'recommended' ? key : Number(key));
          dialogOpened({ open: 'none' });
        }}
      >
        {choices.map(({ key, choice }) => (
          <GridListItem
            key={key}
            id={key}
            className="other"
            textValue={choice.changes
              .map(({ position, from, to }) => `${position} ${from} to ${to}`)
              .join(', ')}
          >
            <span className="other__worst">
              <strong>
                <HowText how={howAlternative(choice, proposal, design)} text={sizeDb(choice.worstDb)} />
              </strong>
              <small>worst channel</small>
            </span>
            <span className="other__changes">
              {choice.changes.map(({ position, from, to }) => (
                <span key={position}>
                  {capital(position)} {plugIn(from)} <Glyph name="arrow" /> <b>{plugIn(to)}</b>
                </span>
              ))}
            </span>
            <small className="other__count">
              {key === 'recommended' ? 'recommended' : counted(choice.changes.length, 'change', 'changes')}
              {proposal.pareto.includes(choice) && (
                <>
                  {', '}
                  <span className="other__best">
                    {choice.changes.length === 1 ? 'best single one' : `best of ${choice.changes.length}`}
                  </span>
                </>
              )}
            </small>
          </GridListItem>
        ))}
      </GridList>
    </Panel>
  );
}
