/**
 * What the page may load, for both hosts: its own files and nothing else. No inline script or style, no eval, no frame,
 * no form, no other origin.
 * @param connectTo  sources of `connect-src` beside the page's own origin
 */
export function pageHeaders(connectTo: readonly string[] = []): Readonly<Record<string, string>> {
  const policy = [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "font-src 'self'",
    "img-src 'self' data:",
    ["connect-src 'self'", ...connectTo].join(' '),
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "require-trusted-types-for 'script'",
  ];
  return {
    'content-security-policy': policy.join('; '),
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'permissions-policy':
      'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), midi=(), payment=()',
    'cache-control': 'no-store',
  };
}
