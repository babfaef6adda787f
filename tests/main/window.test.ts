import { EventEmitter } from 'node:events';
import type { Session, WebContents } from 'electron';
import { describe, expect, it } from 'vitest';
import { pageUrl } from '../../electron/main/page-files.ts';
import { refuseNavigation, refusePermissions, windowOptions } from '../../electron/main/window.ts';

it('the window has a sandbox, an isolated context and no Node', () => {
  expect(windowOptions('/built/preload.cjs').webPreferences).toEqual({
    preload: '/built/preload.cjs',
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
  });
});

/** A session that keeps its handlers, so that a test can ask them. */
function fakeSession() {
  type Handler = (...words: unknown[]) => unknown;
  const handlers: { request?: Handler; check?: Handler; device?: Handler } = {};
  const keep = (name: keyof typeof handlers) => (handler: Handler) => {
    handlers[name] = handler;
  };
  const session = Object.assign(new EventEmitter(), {
    setPermissionRequestHandler: keep('request'),
    setPermissionCheckHandler: keep('check'),
    setDevicePermissionHandler: keep('device'),
  });
  refusePermissions(session as unknown as Session);
  return { session, handlers };
}

describe('permissions', () => {
  it.each(['media', 'geolocation', 'serial', 'hid', 'usb', 'clipboard-read', 'openExternal', 'fullscreen'])(
    'of the browser are all refused: %s',
    (permission) => {
      const { handlers } = fakeSession();
      const answers: unknown[] = [];
      handlers.request?.(null, permission, (granted: unknown) => answers.push(granted), {
        requestingUrl: pageUrl,
      });
      expect(answers).toEqual([false]);
      expect(handlers.check?.(null, permission, pageUrl, {})).toBe(false);
      expect(handlers.device?.({ deviceType: permission })).toBe(false);
    },
  );

  it.each([
    [pageUrl, true],
    ['tiltwright://workbench', true],
    ['tiltwright://workbench/', true],
    ['tiltwright://workbench.elsewhere/', false],
    ['https://workbench/', false],
    ['', false],
  ])('let the page alone copy into the clipboard: %s', (address, granted) => {
    const { handlers } = fakeSession();
    const answers: unknown[] = [];
    handlers.request?.(null, 'clipboard-sanitized-write', (one: unknown) => answers.push(one), {
      requestingUrl: address,
    });
    expect(answers).toEqual([granted]);
    expect(handlers.check?.(null, 'clipboard-sanitized-write', address, {})).toBe(granted);
  });

  it('choose no device', () => {
    const { session } = fakeSession();
    const chosen: string[] = [];
    let prevented = 0;
    const event = { preventDefault: () => (prevented += 1) };
    const choose = (id: string) => chosen.push(id);
    session.emit('select-serial-port', event, [{ portId: 'a' }], null, choose);
    session.emit('select-hid-device', event, {}, choose);
    session.emit('select-usb-device', event, {}, choose);
    expect(chosen).toEqual(['', '', '']);
    expect(prevented).toBe(3);
  });
});

describe('navigation', () => {
  function contents() {
    let opening: (details: { url: string }) => unknown = () => null;
    const fake = Object.assign(new EventEmitter(), {
      setWindowOpenHandler(handler: (details: { url: string }) => unknown) {
        opening = handler;
      },
    });
    refuseNavigation(fake as unknown as WebContents);
    return {
      goes(by: string, url: string) {
        let prevented = false;
        fake.emit(by, { url, preventDefault: () => (prevented = true) });
        return !prevented;
      },
      opens: (url: string) => opening({ url }),
    };
  }

  it.each(['will-navigate', 'will-redirect', 'will-frame-navigate'])('stays on the page: %s', (by) => {
    const { goes } = contents();
    for (const url of [
      'https://example.com/',
      'file:///etc/passwd',
      'javascript:alert(1)',
      `${pageUrl}?other`,
      'tiltwright://workbench.example/index.html',
    ]) {
      expect(goes(by, url)).toBe(false);
    }
    expect(goes(by, pageUrl)).toBe(true);
  });

  it('opens no second window and no webview', () => {
    const { goes, opens } = contents();
    expect(opens(pageUrl)).toEqual({ action: 'deny' });
    expect(opens('https://example.com/')).toEqual({ action: 'deny' });
    expect(goes('will-attach-webview', pageUrl)).toBe(false);
  });
});
