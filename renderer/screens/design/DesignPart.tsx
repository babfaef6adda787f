import type { StationDraft } from '../../state/design/draft.ts';
import { withMoved, withoutPort, withoutPosition, withPort, withPosition } from '../../state/design/edits.ts';
import { type DraftPart, topOf } from '../../state/design/made.ts';
import { DesignGainControl } from './DesignGainControl.tsx';
import { DesignPort } from './DesignPort.tsx';
import { DesignPosition } from './DesignPosition.tsx';
import { DesignSpan } from './DesignSpan.tsx';
import { DesignStage } from './DesignStage.tsx';

export type DesignPartProps = Readonly<{
  draft: StationDraft;
  part: DraftPart;
  portKey: number;
  /** Names of the ports that sweeps were read at. */
  readPorts: ReadonlySet<string>;
  onPart: (part: DraftPart) => void;
  onChange: (draft: StationDraft, about: string) => void;
}>;

/** The fields of what was chosen in the picture. */
export function DesignPart({ draft, part, portKey, readPorts, onPart, onChange }: DesignPartProps) {
  const toPort = () => onPart({ at: 'port', key: portKey });
  switch (part.at) {
    case 'name':
    case 'port': {
      const key = part.at === 'port' ? part.key : portKey;
      const port = draft.ports.find((one) => one.key === key);
      if (port === undefined) return null;
      return (
        <DesignPort
          port={port}
          isRead={readPorts.has(port.name)}
          isOnly={draft.ports.length === 1}
          onChange={(change, about) => onChange(withPort(draft, key, change), `port ${key} ${about}`)}
          onRemove={() => {
            const next = withoutPort(draft, key);
            onChange(next, `port ${key} out`);
            const [first] = next.ports;
            if (first !== undefined) onPart({ at: 'port', key: first.key });
          }}
        />
      );
    }
    case 'position': {
      const position = draft.positions.find(({ key }) => key === part.key);
      const way = draft.ports.find(({ key }) => key === portKey)?.through ?? [];
      if (position === undefined) return null;
      const place = way.indexOf(part.key);
      return (
        <DesignPosition
          position={position}
          usualTopMhz={topOf(draft, { ...position, topMhz: null })}
          canMove={{ earlier: place > 0, later: place >= 0 && place < way.length - 1 }}
          onChange={(change, about) =>
            onChange(withPosition(draft, part.key, change), `position ${part.key} ${about}`)
          }
          onMove={(by) =>
            onChange(withMoved(draft, portKey, part.key, by), `position ${part.key} moved ${way}`)
          }
          onRemove={() => {
            onChange(withoutPosition(draft, part.key), `position ${part.key} out`);
            toPort();
          }}
        />
      );
    }
    case 'stage':
      return draft.stage === null ? null : (
        <DesignStage
          draft={draft}
          stage={draft.stage}
          onChange={(stage, about) => {
            onChange({ ...draft, stage }, about);
            if (stage === null) toPort();
          }}
        />
      );
    case 'span':
      return draft.span === null ? null : (
        <DesignSpan
          span={draft.span}
          onChange={(span, about) => {
            onChange({ ...draft, span }, about);
            if (span === null) toPort();
          }}
        />
      );
    case 'gain-control':
      return draft.gainControl === null ? null : (
        <DesignGainControl
          gainControl={draft.gainControl}
          onChange={(gainControl, about) => {
            onChange({ ...draft, gainControl }, about);
            if (gainControl === null) toPort();
          }}
        />
      );
  }
}
