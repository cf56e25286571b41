/** A small dense system of linear equations. Nothing here knows what it is solved for. */

/** Gauss with pivots. `null` where the matrix is singular. @param matrix rows; left as it is. */
export function solveLinear(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const n = right.length
  const rows = matrix.map((row, i) => [...row, right[i] as number])
  for (let column = 0; column < n; column++) {
    let pivot = column
    for (let row = column + 1; row < n; row++) {
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row
    }
    const largest = Math.abs(rows[pivot]![column]!)
    if (!(largest > 1e-14)) return null
    ;[rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!]
    for (let row = 0; row < n; row++) {
      if (row === column) continue
      const factor = rows[row]![column]! / rows[column]![column]!
      if (factor === 0) continue
      for (let k = column; k <= n; k++) rows[row]![k]! -= factor * rows[column]![k]!
    }
  }
  return rows.map((row, i) => row[n]! / row[i]!)
}

/** The inverse of a symmetric positive matrix, column by column; `null` where it is singular. */
export function invert(matrix: readonly (readonly number[])[]): number[][] | null {
  const n = matrix.length
  const columns: number[][] = []
  for (let i = 0; i < n; i++) {
    const column = solveLinear(
      matrix,
      Array.from({ length: n }, (_, k) => (k === i ? 1 : 0)),
    )
    if (!column) return null
    columns.push(column)
  }
  return columns
}
