import { levelFromNumber, levelNumber, levelWord } from '../../format.ts';
import { Figure } from '../../parts/Figure.tsx';
import { selectLevelUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';

export type LevelFigureProps = Readonly<{
  name: string;
  about?: string;
  levelDbmv: number | null;
  onSay: (levelDbmv: number | null) => void;
}>;

/** A level in the unit that was chosen, kept in dBmV. */
export function LevelFigure({ levelDbmv, onSay, ...words }: LevelFigureProps) {
  const unit = useSelected(selectLevelUnit);
  return (
    <Figure
      {...words}
      unit={levelWord(unit)}
      value={levelDbmv === null ? null : levelNumber(levelDbmv, unit)}
      onSay={(value) => {
        const said = value === null ? Number.NaN : levelFromNumber(value, unit);
        onSay(Number.isFinite(said) ? said : null);
      }}
    />
  );
}
