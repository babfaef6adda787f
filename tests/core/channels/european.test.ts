import { expect, it } from 'vitest';
import { europeanChannels, europeanDigitalChannels } from '../../../core/channels/european.ts';

const visionOf = (label: string) => europeanChannels().find((channel) => channel.label === label)?.visualMhz;

// First and last of each stretch: xawtv frequencies/ccir-*.list and uhf.list. ITU-R vision carriers of E2, E12, UHF 21, 69.
it('has the vision carriers of the public lists at both ends of each stretch', () => {
  expect(['E2', 'E4', 'E5', 'E12'].map(visionOf)).toEqual([48.25, 62.25, 175.25, 224.25]);
  expect(['S1', 'S10', 'S11', 'S20', 'S21', 'S41'].map(visionOf)).toEqual([
    105.25, 168.25, 231.25, 294.25, 303.25, 463.25,
  ]);
  expect(['21', '69'].map(visionOf)).toEqual([471.25, 855.25]);
  expect(europeanChannels()).toHaveLength(3 + 10 + 8 + 10 + 21 + 49);
});

it('has no two channels in one place', () => {
  const channels = europeanChannels();
  channels.slice(1).forEach((next, i) => {
    expect(next.lowerEdgeMhz).toBeGreaterThanOrEqual(channels[i]?.upperEdgeMhz ?? 0);
  });
  expect(new Set(channels.map((channel) => channel.label)).size).toBe(channels.length);
});

// w_scan2 src/countries.c: UHF channel n has its centre at 306 + 8n, the cable list 73 + 8n and 138 + 8n.
it('has its UHF centres where the digital lists have them', () => {
  for (let n = 21; n <= 69; n += 1)
    expect(europeanChannels().find((channel) => channel.label === String(n))?.centerMhz).toBe(306 + 8 * n);
});

it('has the digital centres of the public list', () => {
  const centers = europeanDigitalChannels().map((channel) => channel.centerMhz);
  expect(centers.slice(0, 4)).toEqual([73, 81, 113, 121]);
  expect(centers.slice(9, 11)).toEqual([169, 314]);
  expect(centers.at(-1)).toBe(858);
  expect(centers).toHaveLength(79);
  expect(europeanDigitalChannels()[10]).toMatchObject({
    label: '314 MHz',
    lowerEdgeMhz: 310,
    upperEdgeMhz: 318,
  });
});
