// The server's no, with what would be right.
export class Refusal extends Error {
  constructor(status, code, detail) {
    super(detail);
    Object.assign(this, { status, code });
  }
}
