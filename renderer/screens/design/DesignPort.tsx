import { Figure } from '../../parts/Figure.tsx';
import { NameEntry } from '../../parts/NameEntry.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import { type DesignDraft, emptyPort, type PortDraft } from '../../state/design/draft.ts';
import { LevelFigure } from './LevelFigure.tsx';

export type DesignPortProps = Readonly<{
  port: PortDraft;
  /** Sweeps that were read at it name it so; then it keeps its name and stays. */
  isRead: boolean;
  isOnly: boolean;
  onChange: (change: Partial<PortDraft>, about: string) => void;
  onRemove: () => void;
}>;

/** What a port is, and what the design asks for there. */
export function DesignPort({ port, isRead, isOnly, onChange, onRemove }: DesignPortProps) {
  const { design } = port;
  const say =
    <K extends keyof DesignDraft>(key: K) =>
    (value: DesignDraft[K]) => {
      if (design !== null) onChange({ design: { ...design, [key]: value } }, `design ${key}`);
    };
  return (
    <>
      <NameEntry
        name="Called"
        about={isRead ? 'its sweeps name it so' : 'for the meter'}
        value={port.name}
        isDisabled={isRead}
        onSay={(name) => onChange({ name }, 'name')}
      />
      <Segments
        label="Direction"
        chosen={port.direction}
        onChoose={(direction) => onChange({ direction }, 'direction')}
        options={[
          { key: 'forward', text: 'Forward' },
          { key: 'return', text: 'Return' },
        ]}
      />
      <Figure
        name="Test point loss"
        about="0 on the line itself"
        unit="dB"
        value={port.testPointLossDb}
        from={0}
        to={60}
        onSay={(testPointLossDb) => onChange({ testPointLossDb }, 'test point')}
      />
      <Segments
        label="Held against a design"
        chosen={design === null ? 'none' : 'design'}
        onChoose={(key) =>
          onChange(
            { design: key === 'none' ? null : emptyPort(0, port.direction, '').design },
            'whether a design',
          )
        }
        options={[
          { key: 'design', text: 'Has a design' },
          { key: 'none', text: 'Is only read' },
        ]}
      />
      {design !== null && (
        <>
          <div className="design__pair">
            <Figure
              name="Low end"
              unit="MHz"
              value={design.lowMhz}
              from={1}
              to={3000}
              onSay={say('lowMhz')}
            />
            <LevelFigure name="level there" levelDbmv={design.lowDbmv} onSay={say('lowDbmv')} />
          </div>
          <div className="design__pair">
            <Figure
              name="High end"
              unit="MHz"
              value={design.highMhz}
              from={1}
              to={3000}
              onSay={say('highMhz')}
            />
            <LevelFigure name="level there" levelDbmv={design.highDbmv} onSay={say('highDbmv')} />
          </div>
          <Segments
            label="Between the two"
            chosen={design.shape}
            onChoose={say('shape')}
            options={[
              { key: 'linear', text: 'A straight line' },
              { key: 'cable', text: 'As cable, root of f' },
            ]}
          />
          <div className="design__pair">
            <Figure
              name="A channel within ±"
              unit="dB"
              value={design.toleranceDb}
              from={0.05}
              to={20}
              onSay={say('toleranceDb')}
            />
            <Figure
              name="Flatness up to"
              unit="dB"
              value={design.flatnessDb}
              from={0.05}
              to={40}
              onSay={say('flatnessDb')}
            />
          </div>
        </>
      )}
      {!isRead && !isOnly && (
        <PressButton rank="quiet" onPress={onRemove}>
          Take this port out
        </PressButton>
      )}
    </>
  );
}
