import './strict-page.ts';
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './look/tokens.css';
import './look/base.css';
import './look/controls.css';
import './look/dialogs.css';
import './look/stations.css';
import './look/sheet.css';
import './look/picture.css';
import './look/kept.css';
import './look/meter.css';
import './look/places.css';
import './look/peaking.css';
import './look/season.css';
import './look/set-up.css';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { connectBridge } from './bridge.ts';
import { createLevelFeed } from './state/level-feed.ts';
import { createLiveFeed } from './state/live-feed.ts';
import { keepPreferences, recallPreferences } from './state/preferences.ts';
import { createWorkbenchStore } from './state/store.ts';
import { createWorkbench } from './state/workbench.ts';

const store = createWorkbenchStore();
recallPreferences(store, window.localStorage, document.documentElement);
keepPreferences(store, window.localStorage, document.documentElement);

const nextFrame = (callback: () => void) => requestAnimationFrame(callback);
const feed = createLiveFeed(nextFrame);
const levels = createLevelFeed(nextFrame, () => performance.now());
const workbench = createWorkbench(connectBridge(), store, feed, levels);
workbench.listen();
void workbench.arrive();

const place = document.getElementById('workbench');
if (place === null) throw new Error('the page has no place for the workbench');
createRoot(place).render(<App bench={{ store, workbench, feed, now: () => new Date().toISOString() }} />);
