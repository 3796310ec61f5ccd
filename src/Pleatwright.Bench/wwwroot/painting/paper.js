// Keeps the two canvases of a cloth, one over the other, and the small pictures that are painted again and again.
export class Paper {
  constructor(host) {
    [this.base, this.over] = host.querySelectorAll("canvas");
    this.ctx = this.base.getContext("2d");
    this.ink = this.over.getContext("2d");
    this.sprites = new Map();
  }

  size(width, height, dpr) {
    this.dpr = dpr;
    for (const canvas of [this.base, this.over]) { canvas.width = width * dpr; canvas.height = height * dpr; }
    this.forget();
  }

  // A clean sheet to paint on in CSS pixels.
  clean(g, width, height) {
    g.setTransform(this.dpr, 0, 0, this.dpr, 0, 0);
    g.clearRect(0, 0, width, height);
  }

  forget() { this.sprites.clear(); }

  sprite(key, make) {
    let s = this.sprites.get(key);
    if (!s) {
      if (this.sprites.size > 400) this.sprites.clear();
      this.sprites.set(key, s = make());
    }
    return s;
  }
}
