import type { StationSheet, Sweep } from '../../core/bridge/records.ts';
import type { State } from './store.ts';

/** Named selectors. Each gives a stored value or a primitive: one that builds an object would render without end. */
export const selectStationsText = (state: State) => state.stationsText;
export const selectStations = (state: State) => state.stations;
export const selectSheet = (state: State) => state.sheet;
export const selectMeter = (state: State) => state.meter;
export const selectPorts = (state: State) => state.ports;
export const selectRun = (state: State) => state.run;
export const selectRepeats = (state: State) => state.repeats;
export const selectLink = (state: State) => state.link;
export const selectTheme = (state: State) => state.theme;
export const selectTextSize = (state: State) => state.textSize;
export const selectSettings = (state: State) => state.settings;
export const selectLevelUnit = (state: State) => state.settings.settings.levelUnit;
export const selectTemperatureUnit = (state: State) => state.settings.settings.temperatureUnit;
export const selectLengthUnit = (state: State) => state.settings.settings.lengthUnit;
export const selectTruck = (state: State) => state.truck;
export const selectKit = (state: State) => state.kit;
export const selectNotes = (state: State) => state.notes;
export const selectOperator = (state: State) => state.operator;
export const selectDialog = (state: State) => state.dialog;
export const selectCare = (state: State) => state.care;
/** Whether the disk is in such need that it is told over every screen. */
export const selectDiskIsInNeed = ({ care }: State): boolean =>
  care !== null && (care.held.length > 0 || care.ballast === 'given-up');
export const selectNotice = (state: State) => state.notice;
export const selectFace = (state: State) => state.face;
export const selectBusy = (state: State) => state.busy;
export const selectHelp = (state: State) => state.help;
export const selectSearchIsOpen = (state: State) => state.searchIsOpen;
export const selectFound = (state: State) => state.found;
export const selectTour = (state: State) => state.tour;
export const selectPlace = (state: State) => state.place;
export const selectLive = (state: State) => state.live;
export const selectWatching = (state: State) => state.watching;
export const selectSetUp = (state: State) => state.setUp;
export const selectSimulatedModule = (state: State) => state.simulatedModule;
export const selectMeterIsSimulated = (state: State): boolean =>
  state.meter.at === 'connected' && state.meter.meter.choice.kind === 'simulated';
export const selectWeather = (state: State) => state.weather;
export const selectSunOffsetC = (state: State) => state.sunOffsetC;
export const selectSeasonMode = (state: State) => state.seasonMode;
export const selectSeasonFace = (state: State) => state.seasonFace;
export const selectSetUpsOf = (state: State) => state.setUpsOf;
export const selectReachFrom = (state: State) => state.reachFrom;

export const selectDesignAt = (state: State) => state.designAt;
export const selectCascade = (state: State) => state.cascade;

export const selectRecordsAt = (state: State) => state.recordsAt;
export const selectRecords = (state: State) => state.records;
export const selectRecordsList = (state: State) => state.recordsList;
export const selectRecordsText = (state: State) => state.recordsText;
export const selectRecordsSort = (state: State) => state.recordsSort;
export const selectHistory = (state: State) => state.history;
export const selectFigureShown = (state: State) => state.figureShown;
export const selectPeriod = (state: State) => state.period;
export const selectVisitEveryMonths = (state: State): number => state.settings.settings.visitEveryMonths;

export const selectStationSheet = (state: State): StationSheet | null =>
  state.sheet.at === 'open' ? state.sheet.sheet : null;

const NO_SWEEPS: Readonly<Record<string, Sweep>> = {};
export const selectSweeps = (state: State): Readonly<Record<string, Sweep>> =>
  state.sheet.at === 'open' ? state.sheet.sweeps : NO_SWEEPS;

export const selectVisitIsOpen = (state: State): boolean =>
  state.sheet.at === 'open' && state.sheet.sheet.openVisit !== null;

export const selectMeterIsReady = (state: State): boolean => state.meter.at === 'connected';
