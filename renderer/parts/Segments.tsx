import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';

export type SegmentsProps<Key extends string> = Readonly<{
  label: string;
  options: readonly Readonly<{ key: Key; text: string }>[];
  /** Null where what is chosen differs, or nothing is. */
  chosen: Key | null;
  onChoose: (key: Key) => void;
  isDisabled?: boolean;
}>;

/** A few choices side by side, one of them taken. */
export const Segments = <Key extends string>({
  label,
  options,
  chosen,
  onChoose,
  isDisabled = false,
}: SegmentsProps<Key>) => (
  <ToggleButtonGroup
    className="segments"
    aria-label={label}
    selectionMode="single"
    isDisabled={isDisabled}
    disallowEmptySelection={chosen !== null}
    selectedKeys={chosen === null ? [] : [chosen]}
    onSelectionChange={(keys) => {
      const [key] = keys;
      const found = options.find((option) => option.key === key);
      if (found !== undefined) onChoose(found.key);
    }}
  >
    {options.map(({ key, text }) => (
      <ToggleButton key={key} id={key}>
        {text}
      </ToggleButton>
    ))}
  </ToggleButtonGroup>
);
