import { ListBox, ListBoxItem } from 'react-aria-components';
import { plugIn } from '../format.ts';

export type ValueKeysProps = Readonly<{
  label: string;
  values: readonly number[];
  inDb: number;
  proposedDb: number | null;
  chosenDb: number;
  onChoose: (valueDb: number) => void;
}>;

/** The kit's values as large keys: one press with a glove on. */
export function ValueKeys({ label, values, inDb, proposedDb, chosenDb, onChoose }: ValueKeysProps) {
  // What is in may be no value of the kit; it must still be there to be seen.
  const all = [...new Set([...values, inDb])].sort((a, b) => a - b);
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
          {valueDb === inDb && <small>is in</small>}
          {valueDb === proposedDb && valueDb !== inDb && <small>proposed</small>}
        </ListBoxItem>
      ))}
    </ListBox>
  );
}
