import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { type ExportFormat, exportSweep as exported, exportSource } from '../../core/files/export-sweep.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { saveFile } from '../save-file.ts';
import { useActions, useWorkbench } from '../state/use-workbench.ts';

export type SaveSweepButtonProps = Readonly<{ sweepId: string | null }>;

const formats: readonly Readonly<{ format: Exclude<ExportFormat, 's2p'>; words: string; ending: string }>[] =
  [
    { format: 'own', words: 'CSV of this workbench', ending: '.csv' },
    { format: 'exchange', words: 'CSV for other programs', ending: '.exchange.csv' },
    { format: 'spreadsheet', words: 'CSV for a spreadsheet', ending: '.spreadsheet.csv' },
    { format: 'json', words: 'JSON', ending: '.json' },
  ];

/** The decimal sign of this computer's country, which its spreadsheet expects. */
const decimalHere = (): ',' | '.' =>
  new Intl.NumberFormat().formatToParts(1.5).some(({ type, value }) => type === 'decimal' && value === ',')
    ? ','
    : '.';

/** Saves the sweep shown, in the form that the next reader needs. */
export function SaveSweepButton({ sweepId }: SaveSweepButtonProps) {
  const { exportSweep } = useWorkbench();
  const { noticed } = useActions();
  const save = async (key: unknown) => {
    const chosen = formats.find(({ format }) => format === key);
    const file = sweepId === null || chosen === undefined ? null : await exportSweep(sweepId);
    if (file === null || chosen === undefined) return;
    const source = exportSource(file.text, file.fileName);
    const text = source.ok ? exported(source.value, chosen.format, decimalHere()) : source;
    if (text.ok)
      saveFile(
        file.fileName.replace(/\.csv$/, chosen.ending),
        chosen.format === 'own' ? file.text : text.value,
      );
    else noticed({ tone: 'problem', text: 'The sweep was not saved.', help: `${text.where}: ${text.help}` });
  };
  return (
    <MenuTrigger>
      <Button className="button button--plain button--usual" isDisabled={sweepId === null}>
        <Glyph name="save" /> Save sweep
      </Button>
      <Popover className="save-menu" placement="top end">
        <Menu className="save-menu__list" aria-label="Save sweep as" onAction={save}>
          {formats.map(({ format, words }) => (
            <MenuItem key={format} id={format} className="save-menu__item">
              {words}
            </MenuItem>
          ))}
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
