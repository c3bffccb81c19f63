//! Published bend radii of plywood, beside which the estimate for a ply can be laid.
//!
//! Source: FAA AC 43.13-1B, Table 1-2, p. 1-25 (read in three copies that agree): smallest inner radius of aircraft
//! plywood at 10 % moisture. Radius and thickness are in no constant ratio, so nothing is carried on beyond the rows.

use super::fault::Fault;

/// How the face grain lies to the bend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// The face grain runs round the bend: the hard way ("90° to face grain" in the table).
    GrainRoundTheBend,
    /// The face grain lies along the bend line or up to 45° off it: the easy way ("0–45°").
    GrainAlongTheBend,
}

/// Thickness; radius cold the hard and the easy way; radius after a hot soak the hard and the easy way. All in mm, from
/// thousandths and tenths of an inch.
type Row = [f64; 5];

const THREE_PLIES: [Row; 6] = [
    [0.889, 50.8, 27.94, 12.7, 2.54],
    [1.778, 132.08, 81.28, 38.1, 10.16],
    [2.54, 218.44, 132.08, 66.04, 20.32],
    [3.175, 304.8, 180.34, 96.52, 30.48],
    [3.937, 406.4, 254.0, 134.62, 45.72],
    [4.699, 508.0, 330.2, 180.34, 66.04],
];

const FIVE_PLIES: [Row; 6] = [
    [4.064, 431.8, 279.4, 152.4, 50.8],
    [4.826, 533.4, 355.6, 177.8, 76.2],
    [5.715, 685.8, 431.8, 254.0, 101.6],
    [6.35, 787.4, 508.0, 304.8, 127.0],
    [8.001, 1092.2, 711.2, 406.4, 177.8],
    [9.525, 1371.6, 914.4, 533.4, 254.0],
];

/// Smallest published inner radius, mm, of plywood of three or five plies `thickness` mm thick in all; between two rows
/// in proportion.
///
/// # Errors
///
/// [`Fault::OutsideTable`] where the table has no rows round that thickness, or none of that many plies.
pub fn radius(thickness: f64, plies: usize, way: Way, hot_soaked: bool) -> Result<f64, Fault> {
    let rows = match plies {
        3 => &THREE_PLIES,
        5 => &FIVE_PLIES,
        _ => return Err(Fault::NoTable { plies }),
    };
    let column = match (way, hot_soaked) {
        (Way::GrainRoundTheBend, false) => 1,
        (Way::GrainAlongTheBend, false) => 2,
        (Way::GrainRoundTheBend, true) => 3,
        (Way::GrainAlongTheBend, true) => 4,
    };
    for pair in rows.windows(2) {
        let (low, high) = (&pair[0], &pair[1]);
        if low[0] <= thickness && thickness <= high[0] {
            let share = (thickness - low[0]) / (high[0] - low[0]);
            return Ok(low[column] + share * (high[column] - low[column]));
        }
    }
    Err(Fault::OutsideTable { thickness, least: rows[0][0], most: rows[rows.len() - 1][0] })
}
