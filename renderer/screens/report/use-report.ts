import { useRef, useState } from 'react';
import { saveBase64 } from '../../save-file.ts';
import type { ReportOrder } from '../../state/report-commands.ts';
import { useWorkbench } from '../../state/use-workbench.ts';

export type ReportWork =
  | Readonly<{ at: 'none' }>
  | Readonly<{ at: 'making'; done: number; total: number | null }>
  | Readonly<{ at: 'saved'; fileName: string }>;

/** Makes a report and hands it to the person as a file; one at a time. */
export function useReport() {
  const { makeReport } = useWorkbench();
  const [work, setWork] = useState<ReportWork>({ at: 'none' });
  const running = useRef<AbortController | null>(null);
  const make = async (order: ReportOrder): Promise<void> => {
    if (running.current !== null) return;
    const controller = new AbortController();
    running.current = controller;
    setWork({ at: 'making', done: 0, total: null });
    const file = await makeReport(order, controller.signal, (done, total) =>
      setWork({ at: 'making', done, total }),
    );
    running.current = null;
    if (file === null) {
      setWork({ at: 'none' });
      return;
    }
    saveBase64(file.fileName, file.base64, file.mediaType);
    setWork({ at: 'saved', fileName: file.fileName });
  };
  return { work, make, stop: () => running.current?.abort() };
}
