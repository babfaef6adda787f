import { ListBox, ListBoxItem } from 'react-aria-components';
import { plugIn } from '../format.ts';

export type ValueKeysProps = Readonly<{
  label: string;
  values: readonly number[];
  inDb: number;
  proposedDb: number | null;
  chosenDb: number;
  onChoose: (valueDb: number) => void;
  /** How many of a value are in the truck; null where no count is kept. */
  inTruck?: ((valueDb: number) => number) | null;
}>;

/** The kit's values as large keys: one press with a glove on. */
export function ValueKeys({
  label,
  values,
  inDb,
  proposedDb,
  chosenDb,
  onChoose,
  inTruck = null,
}: ValueKeysProps) {
  // What is in may be no value of the kit; it must still be there to be seen.
  const all = [...new Set([...values, inDb])].sort((a, b) => a - b);
  const wordsUnder = (valueDb: number): string => {
    if (valueDb === inDb) return 'is in';
    if (inTruck !== null && inTruck(valueDb) === 0) return 'none left';
    const count = inTruck === null ? '' : `, ${inTruck(valueDb)}`;
    if (valueDb === proposedDb) return `proposed${count}`;
    return inTruck === null ? '' : `${inTruck(valueDb)} there`;
  };
  return (
    <ListBox
      className="keys"
      aria-label={label}
      layout="grid"
      selectionMode="single"
      disallowEmptySelection
      selectedKeys={[String(chosenDb)]}
      onSelectionChange={(keys) => {
        if (keys === 'all') return;
        const [key] = keys;
        if (key !== undefined) onChoose(Number(key));
      }}
    >
      {all.map((valueDb) => (
        <ListBoxItem
          key={valueDb}
          id={String(valueDb)}
          textValue={plugIn(valueDb)}
          className={`key${valueDb === proposedDb ? ' key--proposed' : ''}`}
        >
          <strong>{plugIn(valueDb)}</strong>
          <small>{wordsUnder(valueDb)}</small>
        </ListBoxItem>
      ))}
    </ListBox>
  );
}
