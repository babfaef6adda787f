import { Input, Label, Text, TextField } from 'react-aria-components';

export type NameEntryProps = Readonly<{
  name: string;
  value: string;
  about?: string;
  isDisabled?: boolean;
  onSay: (value: string) => void;
}>;

/** A name that stands beside quantities. */
export const NameEntry = ({ name, value, about, isDisabled = false, onSay }: NameEntryProps) => (
  <TextField className="quantity" value={value} maxLength={120} isDisabled={isDisabled} onChange={onSay}>
    <Label className="quantity__name">{name}</Label>
    {about !== undefined && (
      <Text slot="description" className="quantity__about">
        {about}
      </Text>
    )}
    <span className="quantity__field quantity__field--text">
      <Input autoComplete="off" spellCheck="false" />
    </span>
  </TextField>
);
