import { type KeyboardEvent, type ReactNode, useState } from 'react';
import { Text, TextField, useLocale } from 'react-aria-components';
import { mannerOf } from '../manner.ts';
import { typedNumber } from '../typed-number.ts';

export type NumberEntryProps = Readonly<{
  value: number;
  onChange: (value: number) => void;
  minValue?: number;
  maxValue?: number;
  step?: number;
  formatOptions?: Intl.NumberFormatOptions;
  className?: string;
  isDisabled?: boolean;
  'aria-label'?: string;
  children: ReactNode;
}>;

/**
 * A field for a number: written as the system writes numbers, read with comma or point. It is taken when the field is left
 * or Enter is pressed; what is no number, or could be two, is not taken, and a line says why. NaN is the empty field.
 */
export function NumberEntry({
  value,
  onChange,
  minValue = Number.NEGATIVE_INFINITY,
  maxValue = Number.POSITIVE_INFINITY,
  step = 1,
  formatOptions,
  className = '',
  children,
  ...rest
}: NumberEntryProps) {
  const { locale } = useLocale();
  const manner = mannerOf(locale);
  const [draft, setDraft] = useState<string | null>(null);
  const [help, setHelp] = useState<string | null>(null);
  const format = new Intl.NumberFormat(locale, { ...formatOptions, useGrouping: false });
  const written = (one: number) => (Number.isFinite(one) ? format.format(one) : '');
  const inside = (one: number) => Math.min(maxValue, Math.max(minValue, one));

  function take(one: number): void {
    const kept = inside(one);
    // As many digits as the field shows, so that what is seen is what is taken.
    const shown = typedNumber(written(kept), manner);
    setDraft(null);
    setHelp(
      kept === one ? null : kept > one ? `At least ${written(minValue)}.` : `At most ${written(maxValue)}.`,
    );
    const taken = shown.kind === 'number' ? shown.value : kept;
    if (taken !== value) onChange(taken);
  }
  function commit(): void {
    if (draft === null) return;
    const typed = typedNumber(draft, manner);
    switch (typed.kind) {
      case 'empty':
        setDraft(null);
        setHelp(null);
        if (Number.isFinite(value)) onChange(Number.NaN);
        return;
      case 'number':
        take(typed.value);
        return;
      case 'unclear':
        setDraft(null);
        setHelp(typed.help);
        return;
    }
  }
  function walk(event: KeyboardEvent): void {
    if (event.key === 'Enter') commit();
    const way = event.key === 'ArrowUp' ? step : event.key === 'ArrowDown' ? -step : null;
    if (way === null) return;
    event.preventDefault();
    const typed = draft === null ? null : typedNumber(draft, manner);
    const from = typed?.kind === 'number' ? typed.value : value;
    take(Number.isFinite(from) ? from + way : inside(0));
  }
  return (
    <TextField
      {...rest}
      className={className}
      value={draft ?? written(value)}
      inputMode="decimal"
      autoComplete="off"
      spellCheck="false"
      onChange={(text) => {
        setDraft(text);
        setHelp(null);
      }}
      onBlur={commit}
      onKeyDown={walk}
    >
      {children}
      {help !== null && (
        <Text slot="errorMessage" className="number-entry__help" role="alert">
          {help}
        </Text>
      )}
    </TextField>
  );
}
