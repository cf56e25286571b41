/** A plane seen by a camera: the projective map between millimetres on the table and pixels of the photo. */

export type Point = readonly [x: number, y: number]
export type Quad = readonly [Point, Point, Point, Point]

/** Row-major 3 × 3 with the last entry 1. */
export type Homography = readonly number[]

/** The map that takes each corner of `from` to the same corner of `to`. Throws where three corners lie on a line. */
export function homographyOf(from: Quad, to: Quad): Homography {
  const rows: number[][] = []
  from.forEach(([x, y], place) => {
    const [u, v] = to[place]!
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y, u], [0, 0, 0, x, y, 1, -v * x, -v * y, v])
  })
  for (let column = 0; column < 8; column++) {
    const best = rows.slice(column).reduce((a, b) => (Math.abs(b[column]!) > Math.abs(a[column]!) ? b : a))
    if (Math.abs(best[column]!) < 1e-12) throw new Error('three corners on a line')
    const place = rows.indexOf(best)
    ;[rows[column], rows[place]] = [rows[place]!, rows[column]!]
    for (const row of rows) {
      if (row === rows[column]) continue
      const part = row[column]! / rows[column]![column]!
      for (let entry = column; entry < 9; entry++) row[entry]! -= part * rows[column]![entry]!
    }
  }
  return [...rows.map((row, place) => row[8]! / row[place]!), 1]
}

export function project(map: Homography, [x, y]: Point): Point {
  const w = map[6]! * x + map[7]! * y + map[8]!
  return [(map[0]! * x + map[1]! * y + map[2]!) / w, (map[3]! * x + map[4]! * y + map[5]!) / w]
}

/** Corners of a box, clockwise from the top left, turned by `angle` radians about its middle. */
export function turnedBox(middle: Point, width: number, height: number, angle: number): Quad {
  const cos = Math.cos(angle)
  const sin = Math.sin(angle)
  const corner = (x: number, y: number): Point => [middle[0] + x * cos - y * sin, middle[1] + x * sin + y * cos]
  return [
    corner(-width / 2, -height / 2),
    corner(width / 2, -height / 2),
    corner(width / 2, height / 2),
    corner(-width / 2, height / 2),
  ]
}
