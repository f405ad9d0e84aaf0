// A worker that does nothing. A browser takes it from an encrypted line whose certificate it trusts, and from no other:
// that is how the page "Join this phone" knows (pages/join/checks.ts). It is taken away again at once.
