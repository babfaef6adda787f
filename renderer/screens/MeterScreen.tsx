import { useState } from 'react';
import { Panel } from '../parts/Panel.tsx';
import { Segments } from '../parts/Segments.tsx';
import { selectDialog, selectMeter } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';
import { MeterChooser } from './MeterChooser.tsx';
import { MeterLink } from './MeterLink.tsx';
import { MeterNow } from './MeterNow.tsx';
import { MeterProfiles } from './MeterProfiles.tsx';

type Face = 'which' | 'link' | 'profiles';

/** Everything of the meter: which one, how its link is, and the profiles by which meters are read. */
export function MeterScreen() {
  const dialog = useSelected(selectDialog);
  return dialog.open === 'meter' ? <OpenMeterScreen /> : null;
}

function OpenMeterScreen() {
  const meter = useSelected(selectMeter);
  const { dialogOpened, noticed } = useActions();
  const [face, setFace] = useState<Face>('which');
  const turnTo = (key: Face) => {
    noticed(null);
    setFace(key);
  };
  return (
    <Panel
      title="Meter"
      isOpen
      onClose={() => {
        noticed(null);
        dialogOpened({ open: 'none' });
      }}
      width="widest"
    >
      {meter.at === 'connected' && <MeterNow meter={meter.meter} />}
      <Segments
        label="Of the meter"
        chosen={face}
        onChoose={turnTo}
        options={[
          { key: 'which', text: 'Which meter' },
          { key: 'link', text: 'Link and calibration' },
          { key: 'profiles', text: 'Profiles' },
        ]}
      />
      {face === 'which' && <MeterChooser />}
      {face === 'link' && <MeterLink />}
      {face === 'profiles' && <MeterProfiles />}
    </Panel>
  );
}
