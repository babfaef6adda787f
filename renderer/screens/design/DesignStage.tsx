import { Checkbox, CheckboxGroup, Label } from 'react-aria-components';
import { Figure } from '../../parts/Figure.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import type { StageDraft, StationDraft } from '../../state/design/draft.ts';
import { LevelFigure } from './LevelFigure.tsx';

export type DesignStageProps = Readonly<{
  draft: StationDraft;
  stage: StageDraft;
  onChange: (stage: StageDraft | null, about: string) => void;
}>;

/** What may go into the first stage: read at an input, less what stands before the stage. */
export function DesignStage({ draft, stage, onChange }: DesignStageProps) {
  const read = draft.ports.find(({ key }) => key === stage.portKey);
  const passed = new Set(stage.through);
  const way = draft.ports.find(({ through }) => stage.through.every((key) => through.includes(key)));
  // In the order of the way; what no way passes comes last.
  const keys = [...new Set([...(way?.through ?? []), ...passed])];
  const listed = keys.flatMap((key) => draft.positions.find((one) => one.key === key) ?? []);
  return (
    <>
      <p className="design__note">
        {`Read at the ${read?.name ?? 'input'}. No proposal may leave these limits once that port is read.`}
      </p>
      <Figure
        name="At"
        about="where the level is held"
        unit="MHz"
        value={stage.atMhz}
        from={1}
        to={3000}
        onSay={(atMhz) => onChange({ ...stage, atMhz }, 'stage at')}
      />
      <LevelFigure
        name="No lower than"
        about="or noise grows"
        levelDbmv={stage.minDbmv}
        onSay={(minDbmv) => onChange({ ...stage, minDbmv }, 'stage min')}
      />
      <LevelFigure
        name="No higher than"
        about="or distortion grows"
        levelDbmv={stage.maxDbmv}
        onSay={(maxDbmv) => onChange({ ...stage, maxDbmv }, 'stage max')}
      />
      <CheckboxGroup
        className="design__before"
        value={stage.through.map(String)}
        onChange={(keys) =>
          onChange(
            {
              ...stage,
              through: listed.filter(({ key }) => keys.includes(String(key))).map(({ key }) => key),
            },
            'stage through',
          )
        }
      >
        <Label>Before the stage</Label>
        {listed.map(({ key, name }) => (
          <Checkbox key={key} value={String(key)} className="tick-box tick-box--worded">
            <span className="tick-box__box" aria-hidden="true" />
            {name}
          </Checkbox>
        ))}
      </CheckboxGroup>
      <PressButton rank="quiet" onPress={() => onChange(null, 'stage')}>
        No limits for it
      </PressButton>
    </>
  );
}
