//! Small symmetric systems of equations.

/// Solves `A x = b` and inverts `A` for a symmetric positive definite matrix, by Cholesky; nothing where it is none.
///
/// Source: Golub and Van Loan, Matrix Computations, 4th edition, section 4.2.
pub(super) fn inverse(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let n = matrix.len();
    let lower = cholesky(matrix)?;
    let mut columns = Vec::with_capacity(n);
    for k in 0..n {
        let unit: Vec<f64> = (0..n).map(|i| if i == k { 1.0 } else { 0.0 }).collect();
        columns.push(backward(&lower, &forward(&lower, &unit)?)?);
    }
    // Symmetric, so the columns are the rows.
    Some(columns)
}

/// Solves `A x = b` for a symmetric positive definite matrix.
pub(super) fn solve(matrix: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    let lower = cholesky(matrix)?;
    backward(&lower, &forward(&lower, right)?)
}

fn cholesky(matrix: &[Vec<f64>]) -> Option<Vec<Vec<f64>>> {
    let n = matrix.len();
    let mut lower: Vec<Vec<f64>> = Vec::with_capacity(n);
    for i in 0..n {
        let mut row: Vec<f64> = Vec::with_capacity(n);
        for j in 0..i {
            let above = lower.get(j)?;
            let dot: f64 = row.iter().zip(above).map(|(a, b)| a * b).sum();
            row.push((matrix.get(i)?.get(j)? - dot) / above.get(j)?);
        }
        let square: f64 = row.iter().map(|a| a * a).sum();
        let pivot = matrix.get(i)?.get(i)? - square;
        if pivot.is_nan() || pivot <= 0.0 {
            return None;
        }
        row.push(libm::sqrt(pivot));
        lower.push(row);
    }
    Some(lower)
}

fn forward(lower: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    let mut found: Vec<f64> = Vec::with_capacity(right.len());
    for (row, b) in lower.iter().zip(right) {
        let dot: f64 = row.iter().zip(&found).map(|(a, x)| a * x).sum();
        found.push((b - dot) / row.last()?);
    }
    Some(found)
}

fn backward(lower: &[Vec<f64>], right: &[f64]) -> Option<Vec<f64>> {
    let n = right.len();
    let mut found = right.to_vec();
    for i in (0..n).rev() {
        let mut value = *right.get(i)?;
        for j in i + 1..n {
            value -= lower.get(j)?.get(i)? * found.get(j)?;
        }
        *found.get_mut(i)? = value / lower.get(i)?.get(i)?;
    }
    Some(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_inverse_undoes() {
        let a = vec![vec![4.0, 1.0, 0.5], vec![1.0, 3.0, -0.2], vec![0.5, -0.2, 2.0]];
        let inv = inverse(&a).unwrap();
        for (i, row) in a.iter().enumerate() {
            for j in 0..3 {
                let product: f64 = row.iter().zip(&inv).map(|(a, column)| a * column[j]).sum();
                assert!((product - if i == j { 1.0 } else { 0.0 }).abs() < 1e-12);
            }
        }
        let x = solve(&a, &[1.0, 2.0, 3.0]).unwrap();
        let back: f64 = a[1].iter().zip(&x).map(|(a, x)| a * x).sum();
        assert!((back - 2.0).abs() < 1e-12);
        assert_eq!(inverse(&[vec![1.0, 2.0], vec![2.0, 1.0]]), None);
    }
}
