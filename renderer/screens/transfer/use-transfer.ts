import { useCallback, useEffect, useRef, useState } from 'react';
import { handBlob } from '../../save-file.ts';
import type {
  Given,
  GiveOrder,
  TakenFiles,
  TransferLook,
  TransferProgress,
} from '../../state/transfer-commands.ts';
import { useWorkbench } from '../../state/use-workbench.ts';

export type TransferWork =
  | Readonly<{ at: 'none' }>
  | Readonly<{ at: 'giving' | 'taking'; progress: TransferProgress | null }>
  | Readonly<{ at: 'given'; given: Given }>
  | Readonly<{ at: 'taken'; files: TakenFiles }>;

/** Gives and takes records, one file or folder at a time, and knows what came in before. */
export function useTransfer() {
  const { lookAtTransfer, giveRecords, takeFolder, takeFile } = useWorkbench();
  const [work, setWork] = useState<TransferWork>({ at: 'none' });
  const [look, setLook] = useState<TransferLook | null>(null);
  const running = useRef<AbortController | null>(null);

  const renew = useCallback(async () => {
    const found = await lookAtTransfer();
    if (found !== null) setLook(found);
  }, [lookAtTransfer]);
  useEffect(() => {
    void renew();
    return () => running.current?.abort();
  }, [renew]);

  const alone = async (
    at: 'giving' | 'taking',
    act: (signal: AbortSignal, told: (progress: TransferProgress) => void) => Promise<TransferWork | null>,
  ): Promise<void> => {
    if (running.current !== null) return;
    const controller = new AbortController();
    running.current = controller;
    setWork({ at, progress: null });
    const ended = await act(controller.signal, (progress) => setWork({ at, progress }));
    running.current = null;
    setWork(ended ?? { at: 'none' });
    if (at === 'taking') await renew();
  };

  return {
    work,
    look,
    stop: () => running.current?.abort(),
    give: (order: GiveOrder) =>
      alone('giving', async (signal, told) => {
        const made = await giveRecords(order, signal, told);
        if (made === null) return null;
        if (made.file !== null) handBlob(made.given.fileName, made.file);
        return { at: 'given', given: made.given };
      }),
    takeFolder: (folder: string) =>
      alone('taking', async (signal, told) => {
        const files = await takeFolder(folder, signal, told);
        return files === null ? null : { at: 'taken', files };
      }),
    takeFiles: (chosen: readonly File[]) =>
      alone('taking', async (signal, told) => {
        const all: TakenFiles = [];
        for (const file of chosen) all.push(...((await takeFile(file, signal, told)) ?? []));
        return all.length === 0 ? null : { at: 'taken', files: all };
      }),
  };
}
