import { useRef } from 'react';
import { Button, Header, Menu, MenuItem, MenuSection, MenuTrigger, Popover } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { saveBase64, saveFile } from '../save-file.ts';
import { selectVisitIsOpen } from '../state/select.ts';
import { responseAsFile, type SweepFormat, sweepAsFile } from '../state/sweep-as-file.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { sweepFileTypes, useSweepImport } from './use-sweep-import.ts';

export type SweepMenuProps = Readonly<{
  sweepId: string | null;
  /** True where the sweep that is shown counts: what does not count can't be put right. */
  canAmend: boolean;
  /** True where it was taken from a file, which is kept. */
  isFromFile: boolean;
  /** What went into this station in the same visit, where it was read: then the response between the two can be saved. */
  input: Readonly<{ sweepId: string; portName: string }> | null;
  /** While the meter reads, nothing else is taken in. */
  reading: boolean;
}>;

const formats: readonly Readonly<{ format: SweepFormat; words: string }>[] = [
  { format: 'own', words: 'Save as CSV of this workbench' },
  { format: 'exchange', words: 'Save as CSV for other programs' },
  { format: 'spreadsheet', words: 'Save as CSV for a spreadsheet' },
  { format: 'json', words: 'Save as JSON' },
];

/** What is done with a sweep now and then: it is put right, held against the bytes that it was read from, saved in the form that the next reader needs, or taken in from elsewhere. */
export function SweepMenu({ sweepId, canAmend, isFromFile, input, reading }: SweepMenuProps) {
  const { exportSweep, originalFile, meterDesk } = useWorkbench();
  const { noticed, dialogOpened } = useActions();
  const visitIsOpen = useSelected(selectVisitIsOpen);
  const { file, paste } = useSweepImport();
  const chooser = useRef<HTMLInputElement>(null);
  const save = async (key: unknown) => {
    const chosen = formats.find(({ format }) => format === key);
    const written = sweepId === null ? null : await exportSweep(sweepId);
    const wentIn = chosen !== undefined || input === null ? null : await exportSweep(input.sweepId);
    if (written === null || (chosen === undefined && wentIn === null)) return;
    const made =
      wentIn !== null ? responseAsFile(written, wentIn) : sweepAsFile(written, chosen?.format ?? 'own');
    if (made.ok) saveFile(made.value.fileName, made.value.text);
    else noticed({ tone: 'problem', text: 'The sweep was not saved.', help: `${made.where}: ${made.help}` });
  };
  const saveOriginal = async (ofSweepId: string) => {
    const original = await originalFile(ofSweepId);
    if (original !== null) saveBase64(original.fileName, original.base64, 'application/octet-stream');
  };
  const act = (key: unknown) => {
    if (key === 'amend') dialogOpened({ open: 'amend-sweep' });
    else if (key === 'bytes') void (sweepId !== null && meterDesk.holdAgainstBytes(sweepId));
    else if (key === 'original') void (sweepId !== null && saveOriginal(sweepId));
    else if (key === 'file') chooser.current?.click();
    else if (key === 'paste') paste();
    else void save(key);
  };
  const takesNone = reading || !visitIsOpen;
  const barred = [
    ...(canAmend && !reading ? [] : ['amend']),
    ...(sweepId === null ? ['bytes', ...formats.map(({ format }) => format)] : []),
    ...(isFromFile ? [] : ['original']),
    ...(input === null || sweepId === null ? ['response'] : []),
    ...(takesNone ? ['file', 'paste'] : []),
  ];
  return (
    <MenuTrigger>
      <Button className="button button--plain button--usual" aria-label="Sweep: correct, save, take in">
        <Glyph name="menu" /> Sweep
      </Button>
      <input
        ref={chooser}
        type="file"
        hidden
        accept={sweepFileTypes.join(',')}
        onChange={(event) => {
          void file(event.target.files);
          event.target.value = '';
        }}
      />
      <Popover className="popover popover--menu" placement="top end">
        <Menu className="options" aria-label="Sweep" onAction={act} disabledKeys={barred}>
          <MenuSection className="options__group">
            <Header className="options__title">This sweep</Header>
            <MenuItem id="amend" className="option">
              Correct, void
            </MenuItem>
            <MenuItem id="bytes" className="option">
              Hold against its bytes
            </MenuItem>
            {formats.map(({ format, words }) => (
              <MenuItem key={format} id={format} className="option">
                {words}
              </MenuItem>
            ))}
            <MenuItem id="original" className="option">
              Save the file it was taken from
            </MenuItem>
            <MenuItem id="response" className="option">
              {input === null
                ? 'Save the response, once what went in is read too'
                : `Save the response from the ${input.portName}, .s2p`}
            </MenuItem>
          </MenuSection>
          <MenuSection className="options__group">
            <Header className="options__title">
              {visitIsOpen ? 'One more, read elsewhere' : 'One more, once a visit is open'}
            </Header>
            <MenuItem id="file" className="option">
              A sweep file
            </MenuItem>
            <MenuItem id="paste" className="option">
              A pasted table
            </MenuItem>
          </MenuSection>
        </Menu>
      </Popover>
    </MenuTrigger>
  );
}
