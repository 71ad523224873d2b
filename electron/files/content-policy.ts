/**
 * The one content policy, sent as a header by the app:// scheme and by the browser-mode server alike.
 * Never repeat it in a meta tag: two policies intersect.
 */
const DIRECTIVES: Readonly<Record<string, string>> = {
  'default-src': "'self'",
  'script-src': "'self'",
  // The drawing library and React write style attributes.
  'style-src': "'self' 'unsafe-inline'",
  // Traced pictures and exported drawings live in the page as blobs.
  'img-src': "'self' data: blob:",
  'connect-src': "'self'",
  'worker-src': "'self'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'frame-ancestors': "'none'",
};

export const CONTENT_POLICY = Object.entries(DIRECTIVES)
  .map(([name, value]) => `${name} ${value}`)
  .join('; ');
