import { Button } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectDialog, selectNotice } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';
import { CareBar } from './CareBar.tsx';

/** One line of what happened and what helps, above the screen and over nothing of it. It stays until it is put away. */
export function NoticeBar() {
  const notice = useSelected(selectNotice);
  const dialog = useSelected(selectDialog);
  const { noticed } = useActions();
  return (
    <div className="notice-place" role="status" aria-live="polite">
      <CareBar />
      {notice !== null && dialog.open === 'none' && (
        <div className={`notice notice--${notice.tone}`}>
          <Mark verdict={notice.tone === 'problem' ? 'fail' : 'pass'} pointing="up" />
          <p>
            <strong>{notice.text}</strong> {notice.help}
          </p>
          {notice.undo !== undefined && (
            <PressButton onPress={notice.undo.go}>
              <Glyph name="undo" /> Undo
            </PressButton>
          )}
          <Button className="icon-button" aria-label="Put this message away" onPress={() => noticed(null)}>
            <Glyph name="close" />
          </Button>
        </div>
      )}
    </div>
  );
}
