import { bareMhz, counted, plugIn } from '../../format.ts';
import { Figure } from '../../parts/Figure.tsx';
import { NameEntry } from '../../parts/NameEntry.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import type { PositionDraft } from '../../state/design/draft.ts';
import { type KitDraft, kitTrouble, valuesOf } from '../../state/design/kit.ts';
import { AlsoValues } from './AlsoValues.tsx';

export type DesignPositionProps = Readonly<{
  position: PositionDraft;
  /** What the top is where none is typed: that of the design that it serves. */
  usualTopMhz: number | null;
  canMove: Readonly<{ earlier: boolean; later: boolean }>;
  onChange: (change: Partial<PositionDraft>, about: string) => void;
  onMove: (by: -1 | 1) => void;
  onRemove: () => void;
}>;

/** What a plug-in is: its kind, the values that there are, and which one is in. */
export function DesignPosition(props: DesignPositionProps) {
  const { position, usualTopMhz, canMove, onChange, onMove, onRemove } = props;
  const { kit } = position;
  const kitSaid = (key: keyof KitDraft) => (value: number | null) =>
    onChange({ kit: { ...kit, [key]: value } }, `kit ${key}`);
  const trouble = kitTrouble(kit);
  const values = trouble === null ? valuesOf(kit) : [];
  const last = values.at(-1);
  return (
    <>
      <NameEntry
        name="Called"
        about="after its place"
        value={position.name}
        onSay={(name) => onChange({ name }, 'name')}
      />
      <Segments
        label="Kind"
        chosen={position.kind}
        onChoose={(kind) => onChange({ kind }, 'kind')}
        options={[
          { key: 'pad', text: 'Pad' },
          { key: 'equalizer', text: 'Equalizer' },
          { key: 'cable-simulator', text: 'Simulator' },
        ]}
      />
      <Figure
        name="In it now"
        about="as its label says"
        unit="dB"
        value={position.installedDb}
        from={0}
        to={60}
        onSay={(installedDb) => onChange({ installedDb }, 'in')}
      />
      <fieldset className="design__kit">
        <legend>Values that there are</legend>
        <div className="design__three">
          <Figure name="From" unit="dB" value={kit.fromDb} from={0} to={60} onSay={kitSaid('fromDb')} />
          <Figure name="to" unit="dB" value={kit.toDb} from={0} to={60} onSay={kitSaid('toDb')} />
          <Figure name="every" unit="dB" value={kit.stepDb} from={0.01} to={60} onSay={kitSaid('stepDb')} />
        </div>
        <AlsoValues values={kit.also} onSay={(also) => onChange({ kit: { ...kit, also } }, 'kit also')} />
        <p className="design__note">
          {trouble !== null || last === undefined
            ? 'Nothing but these is ever proposed.'
            : `${counted(values.length, 'value', 'values')}, ${plugIn(values[0] ?? 0)} to ${plugIn(last)} dB. Nothing else is proposed.`}
        </p>
      </fieldset>
      {position.kind !== 'pad' && (
        <>
          <Figure
            name="Top frequency"
            about={
              usualTopMhz === null ? 'as its label says' : `empty: ${bareMhz(usualTopMhz)} MHz, the design's`
            }
            unit="MHz"
            value={position.topMhz}
            from={1}
            to={3000}
            onSay={(topMhz) => onChange({ topMhz }, 'top')}
          />
          <Figure
            name="Insertion loss"
            about="there, from its sheet; empty: none"
            unit="dB"
            value={position.insertionLossDb}
            from={0}
            to={20}
            onSay={(insertionLossDb) => onChange({ insertionLossDb }, 'insertion')}
          />
        </>
      )}
      {position.curves !== undefined && (
        <p className="design__note">
          {`Measured losses of ${Object.keys(position.curves).join(', ')} are kept with it.`}
        </p>
      )}
      <div className="design__acts">
        <PressButton isDisabled={!canMove.earlier} onPress={() => onMove(-1)}>
          Earlier
        </PressButton>
        <PressButton isDisabled={!canMove.later} onPress={() => onMove(1)}>
          Later
        </PressButton>
        <PressButton rank="quiet" onPress={onRemove}>
          Take it out
        </PressButton>
      </div>
    </>
  );
}
