/**
 * The page before the workbench: it changes the start code in the address for a cookie and goes in, or says in plain
 * words where to get a link. The code stands behind the # so that no browser sends it in a request line or a referrer.
 */
export const doorPage = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Tiltwright</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="/door.css">
<script src="/door.js" defer></script>
</head>
<body>
<main>
<h1>Tiltwright</h1>
<noscript><p>Tiltwright needs JavaScript: it draws the sweeps in this page.</p></noscript>
<p id="closed" hidden>This browser has no key to the workbench. Open it with the link that stands in the terminal where
the workbench was started. A link works once and not for long: press Enter in that terminal for a new one.</p>
</main>
</body>
</html>
`;

export const doorStyle = `:root { color-scheme: light dark; }
body { margin: 0; font: 1.25rem/1.5 system-ui, sans-serif; background: Canvas; color: CanvasText; }
main { max-width: 36rem; margin: 15vh auto 0; padding: 0 1.5rem; }
`;

export const doorScript = `'use strict';
(async () => {
  const code = /^#code=([\\w-]+)$/.exec(location.hash)?.[1];
  // Out of the address, and so out of the history, before anything else.
  history.replaceState(null, '', '/');
  if (code !== undefined) {
    await fetch('/session', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code }),
    });
  }
  const session = await (await fetch('/session')).json();
  if (session.open) location.replace('/workbench/');
  else document.getElementById('closed').hidden = false;
})();
`;
