import { Mark } from '../parts/Mark.tsx';
import { selectNotice } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';

/** What went wrong, inside the dialog that asked for it: the bar outside is out of reach while a dialog is open. */
export function DialogNotice() {
  const notice = useSelected(selectNotice);
  return (
    <p className="panel__help" role="alert">
      {notice?.tone === 'problem' && (
        <>
          <Mark verdict="fail" pointing="up" /> {notice.text} {notice.help}
        </>
      )}
    </p>
  );
}
