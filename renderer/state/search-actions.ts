import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { levelWord } from '../format.ts';
import { placesOf } from './place-slice.ts';
import type { State } from './store.ts';
import type { Workbench } from './workbench.ts';

/** Something that the workbench can do or show, found by its name. */
export type Action = Readonly<{
  id: string;
  name: string;
  about?: string;
  /** Other words by which it is found. */
  also: string;
  go: (state: State, workbench: Workbench) => void;
}>;

const reads = ({ run }: State): boolean => run.at !== 'idle' && run.at !== 'cut-short';
const LEVEL_UNITS: readonly LevelUnitName[] = ['dBmV', 'dBuV', 'dBm75', 'dBm50', 'mV'];

/** The archive's screens; a station is left first, as the bar's way back does it. */
const screens = (state: State): readonly Action[] => [
  {
    id: 'to-stations',
    name: 'Stations',
    also: 'list home',
    go: async (_, workbench) => {
      if (state.sheet.at !== 'none') await workbench.leaveStation();
      workbench.closeRecords();
    },
  },
  {
    id: 'to-records',
    name: 'All records',
    also: 'table quality drift due history',
    go: async (_, workbench) => {
      if (state.sheet.at !== 'none') await workbench.leaveStation();
      await workbench.openRecords();
    },
  },
  {
    id: 'new-station',
    name: 'New station',
    also: 'add create describe design own',
    go: (now) => now.designWent({ at: 'new', like: null }),
  },
  {
    id: 'to-period',
    name: 'Visits of a period',
    also: 'month week batch report quality',
    go: async (now, workbench) => {
      if (state.sheet.at !== 'none') await workbench.leaveStation();
      // The way back from there is the table of all records: it is read meanwhile.
      void workbench.openRecords();
      now.recordsWent('period');
    },
  },
];

/** What can be done at the station that is open. */
function here(state: State): readonly Action[] {
  const { sheet } = state;
  if (sheet.at !== 'open' || reads(state)) return [];
  const { station, openVisit } = sheet.sheet;
  const dialog = (
    id: 'begin-visit' | 'end-visit' | 'line-up' | 'trims',
    name: string,
    also: string,
  ): Action => ({
    id,
    name,
    also,
    go: (now) => {
      // The sheet's own dialogs stand on the sheet.
      if (id === 'line-up' || id === 'trims') now.placeChosen('station');
      now.dialogOpened({ open: id });
    },
  });
  return [
    ...placesOf(station).map(({ place, name }) => ({
      id: `place-${place}`,
      name,
      about: `at ${station.name}`,
      also: 'screen go to',
      go: (now: State) => now.placeChosen(place),
    })),
    openVisit === null
      ? dialog('begin-visit', 'Begin a visit', 'start open cautions')
      : dialog('end-visit', 'End the visit', 'finish close note'),
    {
      id: 'design',
      name: 'Design of this station',
      also: 'edit change levels kit values positions ports limits gain control span',
      go: (now) => now.designWent({ at: 'change' }),
    },
    dialog('line-up', 'Line-up of this station', 'channels plan offsets'),
    dialog('trims', 'Trims of this station', 'gain slope turn'),
  ];
}

const units = ({ settings: { settings } }: State): readonly Action[] => [
  ...LEVEL_UNITS.filter((unit) => unit !== settings.levelUnit).map((levelUnit) => ({
    id: `unit-${levelUnit}`,
    name: `Show levels in ${levelWord(levelUnit)}`,
    also: `unit ${levelUnit} switch`,
    go: (_: State, workbench: Workbench) => void workbench.changeSettings({ ...settings, levelUnit }),
  })),
  {
    id: 'unit-temperature',
    name: `Show temperatures in \u00B0${settings.temperatureUnit === 'C' ? 'F' : 'C'}`,
    also: 'unit switch fahrenheit celsius degrees',
    go: (_, workbench) =>
      void workbench.changeSettings({
        ...settings,
        temperatureUnit: settings.temperatureUnit === 'C' ? 'F' : 'C',
      }),
  },
  {
    id: 'unit-length',
    name: `Show lengths in ${settings.lengthUnit === 'm' ? 'feet' : 'metres'}`,
    also: 'unit switch m ft meters',
    go: (_, workbench) =>
      void workbench.changeSettings({ ...settings, lengthUnit: settings.lengthUnit === 'm' ? 'ft' : 'm' }),
  },
];

const everywhere = (state: State): readonly Action[] => [
  {
    id: 'meter',
    name: 'Meter',
    also: 'connect port serial profile',
    go: (now) => now.dialogOpened({ open: 'meter' }),
  },
  {
    id: 'truck',
    name: 'Parts in the truck',
    also: 'stock kit count',
    go: (now) => now.dialogOpened({ open: 'truck' }),
  },
  {
    id: 'settings',
    name: 'Settings',
    also: 'units text size meter uncertainty backup archive verify preferences',
    go: (now) => now.dialogOpened({ open: 'settings' }),
  },
  {
    id: 'theme',
    name: state.theme === 'night' ? 'Colours for the sun' : 'Colours for the night',
    also: 'theme dark light colors',
    go: (now) => now.themeChosen(state.theme === 'night' ? 'sun' : 'night'),
  },
  {
    id: 'help',
    name: 'Help: the words of the trade',
    also: 'glossary explain',
    go: (now) => now.helpOpened('terms'),
  },
  { id: 'keys', name: 'Help: the keys', also: 'keyboard shortcuts', go: (now) => now.helpOpened('keys') },
  {
    id: 'begin',
    name: 'Help: first steps',
    also: 'tour demo start newcomer',
    go: (now) => now.helpOpened('begin'),
  },
];

/** What leads to another screen leaves the desk at which a station is described. */
const fromDesk = (action: Action): Action => ({
  ...action,
  go: (now, workbench) => {
    if (action.id !== 'design' && action.id !== 'new-station') now.designWent({ at: 'closed' });
    return action.go(now, workbench);
  },
});

/** Everything that can be done from where one is; what makes no sense now is not there. */
export const actionsOf = (state: State): readonly Action[] => [
  ...[...here(state), ...screens(state)].map(fromDesk),
  ...units(state),
  ...everywhere(state),
];
