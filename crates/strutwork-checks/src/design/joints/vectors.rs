//! Little sums of vectors, global axes.

pub(in crate::design) type Vector = [f64; 3];

pub(in crate::design) fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(in crate::design) fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// a − b.
pub(in crate::design) fn less(a: Vector, b: Vector) -> Vector {
    [0, 1, 2].map(|axis| a[axis] - b[axis])
}

pub(in crate::design) fn times(factor: f64, a: Vector) -> Vector {
    a.map(|part| factor * part)
}

pub(in crate::design) fn unit(a: Vector) -> Vector {
    times(1.0 / dot(a, a).sqrt(), a)
}
