//! Messages with lengths in them, said in the units that are on the screen.

use super::System;
use core::fmt;

/// A message that may hold lengths. As plain text (`Display`) it says them in millimetres, as files and scripts have them.
pub trait Words {
    /// Says it in the given units.
    ///
    /// # Errors
    ///
    /// Only those of `f` itself.
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result;

    /// The message in the given units.
    fn said_in(&self, system: System) -> String {
        In(self, system).to_string()
    }
}

struct In<'a, T: ?Sized>(&'a T, System);

impl<T: Words + ?Sized> fmt::Display for In<'_, T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.words(f, self.1)
    }
}

/// Implements `Display` and `Error` for messages with [`Words`].
macro_rules! error_with_words {
    ($name:ty) => {
        impl core::fmt::Display for $name {
            fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
                crate::units::Words::words(self, f, crate::units::System::default())
            }
        }

        impl core::error::Error for $name {}

        crate::language::say_displayed!($name);
    };
}
pub(crate) use error_with_words;
