import type { BrowserWindowConstructorOptions, Session, WebContents } from 'electron';
import { isOfPage, pageUrl } from './page-files.ts';

/** A page without Node, in a sandbox, with a preload of two functions. */
export function windowOptions(preloadFile: string): BrowserWindowConstructorOptions {
  return {
    width: 1366,
    height: 768,
    minWidth: 900,
    minHeight: 600,
    show: false,
    title: 'Tiltwright',
    autoHideMenuBar: true,
    webPreferences: {
      preload: preloadFile,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      navigateOnDragDrop: false,
      spellcheck: false,
    },
  };
}

/** A chart is copied by a press of the person; what the clipboard takes is text or a picture, and nothing is read from it. */
const COPYING = 'clipboard-sanitized-write';

/** The page asks the bridge for everything; it needs no permission of the browser but to copy, and no device. */
export function refusePermissions(
  session: Pick<
    Session,
    'setPermissionRequestHandler' | 'setPermissionCheckHandler' | 'setDevicePermissionHandler' | 'on'
  >,
): void {
  session.setPermissionRequestHandler((_contents, permission, answer, { requestingUrl }) =>
    answer(permission === COPYING && isOfPage(requestingUrl)),
  );
  session.setPermissionCheckHandler(
    (_contents, permission, requestingOrigin) => permission === COPYING && isOfPage(requestingOrigin),
  );
  session.setDevicePermissionHandler(() => false);
  // The meter's port belongs to the backend; an empty choice tells the page that nothing was chosen.
  session.on('select-serial-port', (event, _ports, _contents, choose) => {
    event.preventDefault();
    choose('');
  });
  session.on('select-hid-device', (event, _details, choose) => {
    event.preventDefault();
    choose('');
  });
  session.on('select-usb-device', (event, _details, choose) => {
    event.preventDefault();
    choose('');
  });
}

/** The window shows one page and stays on it; loading that page again is all it may do. */
export function refuseNavigation(contents: Pick<WebContents, 'on' | 'setWindowOpenHandler'>): void {
  const stay = (event: { preventDefault(): void; url: string }) => {
    if (event.url !== pageUrl) event.preventDefault();
  };
  contents.on('will-navigate', stay);
  contents.on('will-redirect', stay);
  contents.on('will-frame-navigate', stay);
  contents.on('will-attach-webview', (event) => event.preventDefault());
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
}
