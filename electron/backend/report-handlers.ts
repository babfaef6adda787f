import type { Handlers } from '../../core/bridge/contract.ts';
import type { Designs } from './services/designs.ts';
import type { Quality } from './services/quality.ts';
import { createReports } from './services/reports.ts';
import type { Runs } from './services/runs.ts';
import type { ServiceParts } from './services/service-parts.ts';
import type { SettingsService } from './services/settings.ts';

/** Joins the call that makes a report to its service. */
export function joinReports(
  { archive, emit, now, version }: ServiceParts & Readonly<{ version: string }>,
  {
    designs,
    settings,
    runs,
    quality,
  }: Readonly<{
    designs: Designs;
    settings: SettingsService;
    runs: Runs;
    quality: Quality;
  }>,
): Pick<Handlers, 'reports.make'> {
  const reports = createReports({
    archive,
    emit,
    now,
    version,
    designs,
    settings,
    unended: runs.unended,
    period: quality.period,
  });
  return { 'reports.make': (input, signal) => reports.make(input, signal) };
}
