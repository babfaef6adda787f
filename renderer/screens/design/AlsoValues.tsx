import { useState } from 'react';
import { Input, Label, Text, TextField } from 'react-aria-components';
import { plugIn, writtenAs } from '../../format.ts';
import { typedNumber } from '../../typed-number.ts';

export type AlsoValuesProps = Readonly<{
  values: readonly number[];
  onSay: (values: readonly number[]) => void;
}>;

/** Single values beside a run in equal steps: typed with spaces between them, because a comma may begin a fraction. */
export function AlsoValues({ values, onSay }: AlsoValuesProps) {
  const [text, setText] = useState<string | null>(null);
  const [help, setHelp] = useState('');
  const take = () => {
    if (text === null) return;
    const said: number[] = [];
    for (const word of text.split(/[\s;]+/).filter((one) => one !== '')) {
      const typed = typedNumber(word, writtenAs());
      if (typed.kind !== 'number' || typed.value < 0) {
        setHelp(typed.kind === 'unclear' ? typed.help : `${word} is no value of a plug-in.`);
        return;
      }
      said.push(typed.value);
    }
    setHelp('');
    setText(null);
    onSay([...new Set(said)].sort((a, b) => a - b));
  };
  return (
    <TextField
      className="quantity"
      value={text ?? values.map(plugIn).join('  ')}
      onChange={setText}
      onBlur={take}
      onKeyDown={(event) => {
        if (event.key === 'Enter') take();
      }}
    >
      <Label className="quantity__name">And also</Label>
      <Text slot="description" className="quantity__about">
        a space between values
      </Text>
      <span className="quantity__field quantity__field--text">
        <Input autoComplete="off" spellCheck="false" inputMode="text" />
      </span>
      {help !== '' && (
        <Text slot="errorMessage" className="number-entry__help" role="alert">
          {help}
        </Text>
      )}
    </TextField>
  );
}
