import type { Ink, Mark, Shape } from './document.ts';

const INK: Readonly<Record<Mark['verdict'], Ink>> = { pass: 'good', fail: 'bad', undecided: 'ink' };

const half = Array.from({ length: 13 }, (_, i) => {
  const turn = -Math.PI / 2 + (Math.PI * i) / 12;
  return [10 + 8 * Math.cos(turn), 10 + 8 * Math.sin(turn)] as const;
});

/**
 * A verdict's shape in a box of 20 by 20: a disc with a tick, a triangle that points to where it lies off, a disc half
 * in and half out. The word stands beside it.
 * @source   the station sheet's marks
 */
export function markShapes({ verdict, pointing }: Mark): readonly Shape[] {
  const ink = INK[verdict];
  switch (verdict) {
    case 'pass':
      return [
        { shape: 'dot', xPt: 10, yPt: 10, radiusPt: 8.5, ink, hollow: false },
        {
          shape: 'line',
          points: [
            [5.8, 10.4],
            [8.9, 13.4],
            [14.4, 7],
          ],
          ink: 'paper',
          widthPt: 2.2,
        },
      ];
    case 'fail':
      return [
        {
          shape: 'area',
          ink,
          points:
            pointing === 'down'
              ? [
                  [1, 3.5],
                  [19, 3.5],
                  [10, 18],
                ]
              : [
                  [1, 16.5],
                  [19, 16.5],
                  [10, 2],
                ],
        },
      ];
    case 'undecided':
      return [
        { shape: 'dot', xPt: 10, yPt: 10, radiusPt: 8, ink, hollow: true },
        { shape: 'area', ink, points: half },
      ];
  }
}
