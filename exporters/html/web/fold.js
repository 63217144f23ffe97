// Where every panel stands for given angles of its creases. Input: a scene. Output: rigid motions.
// A motion moves p to r·p + t; r has three rows. Lengths in mm, angles in degrees. No rule of folding is known here: angles
// come from the steps of the scene.

/** No motion at all. */
export const STILL = { r: [1, 0, 0, 0, 1, 0, 0, 0, 1], t: [0, 0, 0] };

/** First `inner`, then `outer`. */
export function joined(outer, inner) {
  const r = [];
  for (let row = 0; row < 9; row += 3) {
    for (let column = 0; column < 3; column++) {
      r.push(outer.r[row] * inner.r[column] + outer.r[row + 1] * inner.r[column + 3] + outer.r[row + 2] * inner.r[column + 6]);
    }
  }
  return { r, t: moved(outer, inner.t) };
}

/** Where a point goes. */
export function moved({ r, t }, [x, y, z]) {
  return [
    r[0] * x + r[1] * y + r[2] * z + t[0],
    r[3] * x + r[4] * y + r[5] * z + t[1],
    r[6] * x + r[7] * y + r[8] * z + t[2],
  ];
}

/** A shift. */
export function shift(x, y, z) {
  return { r: STILL.r, t: [x, y, z] };
}

/** A turn about an axis, one long, through a point. Source: Rodrigues' rotation formula. */
export function turn([x, y, z], degrees, point) {
  const angle = degrees * Math.PI / 180;
  const c = Math.cos(angle), s = Math.sin(angle), v = 1 - c;
  const r = [
    v * x * x + c, v * x * y - s * z, v * x * z + s * y,
    v * x * y + s * z, v * y * y + c, v * y * z - s * x,
    v * x * z - s * y, v * y * z + s * x, v * z * z + c,
  ];
  const there = moved({ r, t: [0, 0, 0] }, point);
  return { r, t: [0, 1, 2].map(axis => point[axis] - there[axis]) };
}

/** The motion of every panel in the frame of the first, for the angles of their creases. */
export function poses(panels, angles) {
  const all = [];
  panels.forEach(({ hinge }, index) => {
    if (!hinge) {
      all.push(STILL);
      return;
    }
    // The panel lies right of the line, so a positive turn about the line reversed lifts it out of the drawn face; the
    // axis lies on the inner side of the finished fold.
    const [x0, y0, x1, y1] = hinge.line;
    const length = Math.hypot(x1 - x0, y1 - y0);
    const axis = [(x0 - x1) / length, (y0 - y1) / length, 0];
    const height = Math.sign(hinge.fold) * hinge.height;
    all.push(joined(all[hinge.parent], turn(axis, angles[index], [x0, y0, height])));
  });
  return all;
}

/** The tray before the first step and after each: angles of the creases, and what is turned, boxed and placed (0 or 1). */
export function stages(scene) {
  let stage = { angles: scene.panels.map(() => 0), turned: 0, boxed: 0, placed: 0 };
  const all = [stage];
  for (const { action } of scene.steps) {
    stage = { ...stage, angles: stage.angles.slice() };
    for (const [panel, degrees] of action.fold ?? []) stage.angles[panel] = degrees;
    if (action === 'turn') stage.turned = 1 - stage.turned;
    if (action === 'place') stage.placed = 1;
    if (action === 'box') {
      stage.boxed = 1;
      // However the style leaves it, in the box it stands the right way up.
      stage.turned = turnsToStand(scene);
    }
    all.push(stage);
  }
  return all;
}

/** Whether the standing tray is turned over from how the hands begin. */
export function turnsToStand(scene) {
  // The hands begin with the face up that is inside the folded tray.
  return (scene.outside ? -1 : 1) === scene.up ? 0 : 1;
}

/** The stage between two, `part` of the way. */
export function between(one, other, part) {
  const mix = (a, b) => a + (b - a) * part;
  return {
    angles: one.angles.map((angle, index) => mix(angle, other.angles[index])),
    turned: mix(one.turned, other.turned),
    boxed: mix(one.boxed, other.boxed),
    placed: mix(one.placed, other.placed),
  };
}

/** How the first panel's frame lies on the table, z up, turned about the middle of the tray. */
export function lie(scene, turned) {
  const hidden = scene.outside ? turn([0, 1, 0], 180, [0, 0, 0]) : STILL;
  const over = turn([1, 0, 0], 180 * turned, [0, 0, 0]);
  const [x, y] = scene.seat;
  return joined(over, joined(hidden, shift(-x, -y, 0)));
}
