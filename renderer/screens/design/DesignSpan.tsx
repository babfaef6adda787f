import { Figure } from '../../parts/Figure.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import type { SpanDraft } from '../../state/design/draft.ts';

export type DesignSpanProps = Readonly<{
  span: SpanDraft;
  onChange: (span: SpanDraft | null, about: string) => void;
}>;

/** The cable in front of the station: what it loses, and how it lies. */
export const DesignSpan = ({ span, onChange }: DesignSpanProps) => (
  <>
    <Figure
      name="Loss"
      about="of the cable, at 20 °C"
      unit="dB"
      value={span.lossDb}
      from={0}
      to={200}
      onSay={(lossDb) => onChange({ ...span, lossDb }, 'span loss')}
    />
    <Figure
      name="at"
      unit="MHz"
      value={span.topMhz}
      from={1}
      to={3000}
      onSay={(topMhz) => onChange({ ...span, topMhz }, 'span top')}
    />
    <Figure
      name="Loss changes by"
      about="of itself per °C; empty: 0.00198"
      unit=""
      value={span.perDegreeC}
      digits={5}
      from={0}
      to={0.1}
      onSay={(perDegreeC) => onChange({ ...span, perDegreeC }, 'span degree')}
    />
    <Segments
      label="How it lies"
      chosen={span.sky}
      onChoose={(sky) => onChange({ ...span, sky }, 'span sky')}
      options={[
        { key: 'aerial', text: 'On poles' },
        { key: 'buried', text: 'Buried' },
      ]}
    />
    <PressButton rank="quiet" onPress={() => onChange(null, 'span')}>
      Nothing is known of it
    </PressButton>
  </>
);
