import { draftOf, likeDraft, newDraft } from '../../state/design/draft.ts';
import { selectDesignAt, selectStationSheet } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';
import { DesignDesk } from './DesignDesk.tsx';

/** A station is described: a new one, one like another, or the open one with another design. */
export function DesignScreen() {
  const at = useSelected(selectDesignAt);
  const sheet = useSelected(selectStationSheet);
  switch (at.at) {
    case 'closed':
      return null;
    case 'new':
      // Another beginning is another desk: nothing of the draft before stays.
      return (
        <DesignDesk
          key={at.like?.id ?? 'new'}
          first={at.like === null ? newDraft() : likeDraft(at.like)}
          of={null}
        />
      );
    case 'change':
      return sheet === null ? null : (
        <DesignDesk key="change" first={draftOf(sheet.station, sheet.pluggedIn)} of={sheet} />
      );
  }
}
