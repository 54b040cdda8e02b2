export interface Serving {
  /** Random per answer; the page's own scripts carry it. */
  readonly nonce: string;
  /** Next's development server evaluates strings and adds style elements. */
  readonly development: boolean;
  readonly overTls: boolean;
}

/**
 * The content security policy: scripts run by nonce only, and what they load; so do style elements, and style
 * attributes not at all.
 */
export function contentSecurityPolicy({ nonce, development, overTls }: Serving): string {
  const directives = [
    "default-src 'self'",
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${development ? " 'unsafe-eval'" : ""}`,
    development ? "style-src 'self' 'unsafe-inline'" : `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'self'",
    "frame-ancestors 'none'",
    ...(overTls ? ["upgrade-insecure-requests"] : []),
  ];
  return directives.join("; ");
}

/** The headers every answer carries. */
export function securityHeaders(serving: Serving): Readonly<Record<string, string>> {
  return {
    "content-security-policy": contentSecurityPolicy(serving),
    "x-content-type-options": "nosniff",
    "referrer-policy": "strict-origin-when-cross-origin",
    "permissions-policy": "geolocation=(self), camera=(self), microphone=(), payment=(), usb=()",
    "cross-origin-opener-policy": "same-origin",
    ...(serving.overTls && !serving.development
      ? { "strict-transport-security": "max-age=63072000; includeSubDomains" }
      : {}),
  };
}
