import { createStore, type StoreApi } from 'zustand/vanilla';
import { type CareSlice, createCareSlice } from './care-slice.ts';
import { createDesignSlice, type DesignSlice } from './design/slice.ts';
import { createHelpSlice, type HelpSlice } from './help-slice.ts';
import { createKeptSlice, type KeptSlice } from './kept-slice.ts';
import { createLiveSlice, type LiveSlice } from './live-slice.ts';
import { createMeterSlice, type MeterSlice } from './meter-slice.ts';
import { createPlaceSlice, type PlaceSlice } from './place-slice.ts';
import { createQualitySlice, type QualitySlice } from './quality-slice.ts';
import { createRunSlice, type RunSlice } from './run-slice.ts';
import { createSearchSlice, type SearchSlice } from './search-slice.ts';
import { createSeasonSlice, type SeasonSlice } from './season-slice.ts';
import { createSetUpSlice, type SetUpSlice } from './set-up-slice.ts';
import { createSheetSlice, type SheetSlice } from './sheet-slice.ts';
import { createSpanSlice, type SpanSlice } from './span-slice.ts';
import { createStationsSlice, type StationsSlice } from './stations-slice.ts';
import { createTourSlice, type TourSlice } from './tour-slice.ts';
import { createUiSlice, type UiSlice } from './ui-slice.ts';
import { createWatchSlice, type WatchSlice } from './watch-slice.ts';

export type State = StationsSlice &
  SheetSlice &
  MeterSlice &
  RunSlice &
  UiSlice &
  HelpSlice &
  SearchSlice &
  TourSlice &
  PlaceSlice &
  QualitySlice &
  LiveSlice &
  KeptSlice &
  SeasonSlice &
  SetUpSlice &
  SpanSlice &
  WatchSlice &
  CareSlice &
  DesignSlice;
export type Store = StoreApi<State>;

/** A store of its own for every page and every test; nothing is shared through the module. */
export const createWorkbenchStore = (): Store =>
  createStore<State>()((...api) => ({
    ...createStationsSlice(...api),
    ...createSheetSlice(...api),
    ...createMeterSlice(...api),
    ...createRunSlice(...api),
    ...createUiSlice(...api),
    ...createHelpSlice(...api),
    ...createSearchSlice(...api),
    ...createTourSlice(...api),
    ...createPlaceSlice(...api),
    ...createQualitySlice(...api),
    ...createLiveSlice(...api),
    ...createKeptSlice(...api),
    ...createSeasonSlice(...api),
    ...createSetUpSlice(...api),
    ...createSpanSlice(...api),
    ...createWatchSlice(...api),
    ...createCareSlice(...api),
    ...createDesignSlice(...api),
  }));
