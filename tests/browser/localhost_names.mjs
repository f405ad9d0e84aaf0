// Names below localhost are this computer (RFC 6761, section 6.3): north.localhost. Browsers know that; Debian's resolver
// does not, so requests of the tests themselves are told here.
import dns from 'node:dns';

const lookUp = dns.lookup;
dns.lookup = (name, options, done = options) =>
  lookUp(name.endsWith('.localhost') ? '127.0.0.1' : name, typeof options === 'function' ? {} : options, done);
