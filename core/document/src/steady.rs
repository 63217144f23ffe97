//! Trigonometric functions with the same result, to the last bit, on every system.
//!
//! The methods of `f64` call the mathematical library of the system, and two systems differ in the last bit. That can
//! change the booklet's choice of a viewpoint or the side of a fold, so that the same job gives other bytes. The engine
//! and all exporters use these functions; `clippy.toml` forbids the methods of the standard library.

/// Functions that do not depend on the system. Angles are in radians.
pub trait Steady {
    /// The sine of an angle.
    fn steady_sin(self) -> f64;
    /// The cosine of an angle.
    fn steady_cos(self) -> f64;
    /// The tangent of an angle.
    fn steady_tan(self) -> f64;
    /// The sine and the cosine of an angle.
    fn steady_sin_cos(self) -> (f64, f64);
    /// The angle from 0 to π with this cosine; not a number outside −1 … 1.
    fn steady_acos(self) -> f64;
    /// The angle from −π/2 to π/2 with this tangent.
    fn steady_atan(self) -> f64;
    /// The angle from −π to π of the direction (`x`, `self`).
    fn steady_atan2(self, x: f64) -> f64;
    /// The length of the vector (`self`, `y`).
    fn steady_hypot(self, y: f64) -> f64;
}

impl Steady for f64 {
    fn steady_sin(self) -> f64 {
        libm::sin(self)
    }

    fn steady_cos(self) -> f64 {
        libm::cos(self)
    }

    fn steady_tan(self) -> f64 {
        libm::tan(self)
    }

    fn steady_sin_cos(self) -> (f64, f64) {
        libm::sincos(self)
    }

    fn steady_acos(self) -> f64 {
        libm::acos(self)
    }

    fn steady_atan(self) -> f64 {
        libm::atan(self)
    }

    fn steady_atan2(self, x: f64) -> f64 {
        libm::atan2(self, x)
    }

    fn steady_hypot(self, y: f64) -> f64 {
        libm::hypot(self, y)
    }
}

#[cfg(test)]
mod tests {
    use super::Steady;

    #[test]
    fn known_angles_have_the_bits_of_the_correctly_rounded_value() {
        // Source: sin 1, cos 1, tan 1, atan 1 = π/4 and acos 0 = π/2 to 17 digits (NIST Digital Library of Mathematical
        // Functions, chapter 4, and its tables); hypot of the triangle 3, 4, 5.
        assert_eq!(1.0_f64.steady_sin(), 0.841_470_984_807_896_5);
        assert_eq!(1.0_f64.steady_cos(), 0.540_302_305_868_139_8);
        assert_eq!(1.0_f64.steady_tan(), 1.557_407_724_654_902_3);
        assert_eq!(1.0_f64.steady_atan(), std::f64::consts::FRAC_PI_4);
        assert_eq!(0.0_f64.steady_acos(), std::f64::consts::FRAC_PI_2);
        assert_eq!((-1.0_f64).steady_atan2(0.0), -std::f64::consts::FRAC_PI_2);
        assert_eq!(3.0_f64.steady_hypot(4.0), 5.0);
    }
}
