//! A smooth curve through known points that never turns where the points do not.
//!
//! Cubic Hermite pieces with the slopes of F. N. Fritsch and R. E. Carlson (source key `MONOTONE_CUBIC`): the mean of the
//! neighbouring secants, zero at a turn, drawn in where the piece would overshoot. Beyond the first point the curve goes
//! on straight; beyond the last it stays level.

/// Where `α² + β² ` of a piece lies beyond the square of this, it could overshoot.
const CIRCLE: f64 = 3.0;

/// Value at `x` of the curve through `points`, whose abscissae rise; none without points.
pub(super) fn value(points: &[(f64, f64)], x: f64) -> Option<f64> {
    let (first, last) = (points.first()?, points.last()?);
    if x >= last.0 {
        return Some(last.1);
    }
    if x < first.0 {
        return Some(first.1 + slope(points, 0) * (x - first.0));
    }
    let right = points.partition_point(|p| p.0 <= x);
    let left = right.checked_sub(1)?;
    let ((x0, y0), (x1, y1)) = (points.get(left)?, points.get(right)?);
    let width = x1 - x0;
    let secant = (y1 - y0) / width;
    let (mut m0, mut m1) = (slope(points, left), slope(points, right));
    if secant == 0.0 {
        (m0, m1) = (0.0, 0.0);
    } else {
        let reach = (m0 / secant).hypot(m1 / secant);
        if reach > CIRCLE {
            let draw = CIRCLE / reach;
            (m0, m1) = (m0 * draw, m1 * draw);
        }
    }
    let s = (x - x0) / width;
    let r = 1.0 - s;
    Some(y0 * r * r * (1.0 + 2.0 * s) + y1 * s * s * (1.0 + 2.0 * r) + width * s * r * (m0 * r - m1 * s))
}

/// Slope at a point before it is drawn in.
fn slope(points: &[(f64, f64)], i: usize) -> f64 {
    let secant = |a: usize| match (points.get(a), points.get(a + 1)) {
        (Some(l), Some(r)) => Some((r.1 - l.1) / (r.0 - l.0)),
        _ => None,
    };
    match (i.checked_sub(1).and_then(secant), secant(i)) {
        (Some(before), Some(after)) if before * after > 0.0 => 0.5 * (before + after),
        (Some(_), Some(_)) | (None, None) => 0.0,
        (Some(one), None) | (None, Some(one)) => one,
    }
}

#[cfg(test)]
mod tests {
    use super::value;
    use proptest::prelude::*;

    #[test]
    fn through_points_and_straight_lines() {
        let points = [(0.1, -3.0), (0.3, 0.5), (0.75, 6.9), (0.9, 16.1)];
        for (x, y) in points {
            approx::assert_relative_eq!(value(&points, x).unwrap(), y, epsilon = 1e-12);
        }
        let line = [(0.0, 1.0), (1.0, 3.0), (4.0, 9.0)];
        for x in [-1.0, 0.2, 2.5, 3.9] {
            approx::assert_relative_eq!(value(&line, x).unwrap(), 1.0 + 2.0 * x, epsilon = 1e-12);
        }
        assert_eq!(value(&points, 1.0), Some(16.1));
        assert_eq!(value(&[], 1.0), None);
        assert_eq!(value(&[(0.2, 5.0)], 0.1), Some(5.0));
    }

    // The set of Akima, J. ACM 17 (1970), used by Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238, to show the
    // overshoot of other curves (numbers from memory): flat up to 8, then steep.
    #[test]
    fn does_not_overshoot_the_published_set() {
        let x = [0.0, 2.0, 3.0, 5.0, 6.0, 8.0, 9.0, 11.0, 12.0, 14.0, 15.0];
        let y = [10.0, 10.0, 10.0, 10.0, 10.0, 10.0, 10.5, 15.0, 50.0, 60.0, 85.0];
        let points: Vec<(f64, f64)> = x.into_iter().zip(y).collect();
        let curve: Vec<f64> = (0..=1500).map(|i| value(&points, f64::from(i) * 0.01).unwrap()).collect();
        assert!(curve.windows(2).all(|w| w[1] >= w[0] - 1e-12));
        assert!(curve[..=800].iter().all(|v| (*v - 10.0).abs() < 1e-12));
    }

    proptest! {
        #[test]
        fn rising_points_give_a_rising_curve(
            steps in prop::collection::vec((0.01_f64..1.0, 0.0_f64..10.0), 1..7),
            at in 0.0_f64..1.0, by in 0.0_f64..0.3,
        ) {
            let mut points = vec![(0.0, 0.0)];
            for (dx, dy) in steps {
                let last = *points.last().unwrap();
                points.push((last.0 + dx, last.1 + dy));
            }
            let end = points.last().unwrap().0;
            let (a, b) = (at * end, (at + by) * end);
            prop_assert!(value(&points, b).unwrap() >= value(&points, a).unwrap() - 1e-9);
        }
    }
}
