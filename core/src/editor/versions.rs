//! Versions on screen: the list, the one behind the current shape, and what has changed since.

use super::{Editor, command};
use crate::{
    compare::{Farthest, farthest},
    edit::Edit,
    measure::Measured,
    quantities::{MEASURES, Quantity},
    say,
    units::{Unit, show, show_difference},
    workshop::FIGURES,
};

/// An earlier version shown behind the current shape.
#[derive(Clone, Debug)]
pub(super) struct Behind {
    pub(super) index: usize,
    pub(super) measured: Measured,
    /// How far the edges lie apart; not followed while something is dragged.
    farthest: Farthest,
}

/// A kept version as the page lists it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VersionView {
    /// Its place in the list, oldest first.
    pub index: usize,
    /// What it is called.
    pub name: String,
    /// Ride notes and the next wish.
    pub note: String,
    /// The day it was kept.
    pub date: String,
    /// Whether it is shown behind the current shape.
    pub behind: bool,
}

/// One measure then and now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// The measure's key.
    pub key: &'static str,
    /// Its name.
    pub label: &'static str,
    /// Its figure on the version behind.
    pub then: String,
    /// Its figure now.
    pub now: String,
    /// The difference with its sign; empty where one of the two has none.
    pub change: String,
}

impl Editor {
    /// All versions, oldest first.
    #[must_use]
    pub fn versions(&self) -> Vec<VersionView> {
        let behind = self.behind.as_ref().map(|behind| behind.index);
        let versions = self.history.design().versions().iter().enumerate();
        versions
            .map(|(index, version)| VersionView {
                index,
                name: version.name.clone(),
                note: version.note.clone(),
                date: version.date.clone(),
                behind: behind == Some(index),
            })
            .collect()
    }

    /// The name of the version behind the current shape.
    #[must_use]
    pub fn behind(&self) -> Option<&str> {
        let index = self.behind.as_ref()?.index;
        self.history.design().versions().get(index).map(|version| version.name.as_str())
    }

    /// Every measure and every figure of the workshop, of the version behind and of the shape in hand; empty where none is
    /// behind.
    #[must_use]
    pub fn differences(&self) -> Vec<Difference> {
        let Some(behind) = &self.behind else { return Vec::new() };
        let Some(workshop_then) = self.workshop_behind() else { return Vec::new() };
        let workshop_now = self.workshop();
        let measures = MEASURES.iter().map(|measure| {
            let [then, now] =
                [&behind.measured, &self.measured].map(|measured| (measure.read)(measured).value);
            (&measure.quantity, then, now)
        });
        let figures = FIGURES.iter().map(|figure| {
            let [then, now] = [&workshop_then, &workshop_now].map(|workshop| (figure.read)(workshop).value);
            (&figure.quantity, then, now)
        });
        measures.chain(figures).map(|(quantity, then, now)| self.difference(quantity, then, now)).collect()
    }

    fn difference(&self, quantity: &'static Quantity, then: Option<f64>, now: Option<f64>) -> Difference {
        let system = self.settings.system;
        let figure = |value: Option<f64>| {
            value.map_or("–".to_owned(), |value| show(value, quantity.unit, system).to_string())
        };
        let change = then.zip(now).map(|(a, b)| show_difference(b - a, quantity.unit, system).text);
        Difference {
            key: quantity.key,
            label: quantity.label,
            then: figure(then),
            now: figure(now),
            change: change.unwrap_or_default(),
        }
    }

    /// How far the edge lies from that of the version behind, and where, in words.
    #[must_use]
    pub fn farthest(&self) -> Option<String> {
        let Farthest { distance, at } = self.behind.as_ref()?.farthest;
        let length = |mm: f64| show(mm.abs(), Unit::Length, self.settings.system);
        let way = if at.x < 0.0 { "toward the tail" } else { "toward the nose" };
        Some(say!("{distance}, {along} {way}", distance = length(distance), along = length(at.x), way))
    }

    /// Shows a version behind the current shape, or none.
    pub(super) fn show_behind(&mut self, index: Option<usize>) {
        let version = index.and_then(|index| Some((index, self.history.design().versions().get(index)?)));
        self.behind = version.map(|(index, version)| {
            let measured = Measured::of(&version.shape);
            let farthest = farthest(&measured.half, &self.measured.half);
            Behind { index, measured, farthest }
        });
    }

    /// Brings the comparison up to date after a change.
    pub(super) fn refresh_behind(&mut self) {
        let Some(behind) = &mut self.behind else { return };
        if self.gesture.is_none() {
            behind.farthest = farthest(&behind.measured.half, &self.measured.half);
        }
        if behind.index >= self.history.design().versions().len() {
            self.behind = None;
        }
    }

    /// Keeps the present shape as a version, and shows it behind what comes.
    pub(super) fn keep_version(&mut self, date: &str) {
        let index = self.history.design().versions().len();
        let edit =
            Edit::KeepVersion { name: say!("Version {number}", number = index + 1), date: date.to_owned() };
        if command::apply(self, "kept a version", &edit) {
            self.show_behind(Some(index));
            self.say(say!("Kept as version {number}: it lies behind in blue.", number = index + 1));
        }
    }
}
