//! Past, present and future of a design, as values.

use crate::design::Design;

/// A design and what was done to get it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What was done, as the undo button says it: "moved node 3".
    pub name: String,
    /// The design after it.
    pub design: Design,
}

/// Every state a design went through, with the present one marked. There is no limit to how far back it reaches.
#[derive(Clone, Debug, PartialEq)]
pub struct History {
    steps: Vec<Step>,
    present: usize,
}

impl History {
    /// A history that starts with `design`; `name` says where it came from.
    #[must_use]
    pub fn new(name: &str, design: Design) -> Self {
        Self { steps: vec![Step { name: name.to_owned(), design }], present: 0 }
    }

    /// A history from stored steps; `None` where there are none or the present one is not among them.
    #[must_use]
    pub fn from_steps(steps: Vec<Step>, present: usize) -> Option<Self> {
        (present < steps.len()).then_some(Self { steps, present })
    }

    /// The design as it is.
    #[must_use]
    pub fn design(&self) -> &Design {
        &self.steps[self.present].design
    }

    /// All steps, oldest first.
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// Which of the steps is the present one.
    #[must_use]
    pub fn present(&self) -> usize {
        self.present
    }

    /// What undo would take back.
    #[must_use]
    pub fn undo_name(&self) -> Option<&str> {
        (self.present > 0).then(|| self.steps[self.present].name.as_str())
    }

    /// What redo would bring back.
    #[must_use]
    pub fn redo_name(&self) -> Option<&str> {
        self.steps.get(self.present + 1).map(|step| step.name.as_str())
    }

    /// Makes `design` the present; what was undone before is gone.
    pub fn commit(&mut self, name: &str, design: Design) {
        self.steps.truncate(self.present + 1);
        self.steps.push(Step { name: name.to_owned(), design });
        self.present += 1;
    }

    /// Replaces the present by `design`, as one more move of the step that made it.
    pub fn amend(&mut self, design: Design) {
        self.steps.truncate(self.present + 1);
        self.steps[self.present].design = design;
    }

    /// Takes back the last step; whether there was one.
    pub fn undo(&mut self) -> bool {
        let possible = self.present > 0;
        self.present -= usize::from(possible);
        possible
    }

    /// Brings back what was undone; whether there was anything.
    pub fn redo(&mut self) -> bool {
        let possible = self.present + 1 < self.steps.len();
        self.present += usize::from(possible);
        possible
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    fn three_steps() -> History {
        let mut history = History::new("opened", demo::turnstone());
        for name in ["Knot", "Sanderling"] {
            history.commit(name, history.design().renamed(name).unwrap());
        }
        history
    }

    #[test]
    fn undo_then_redo_is_the_identity() {
        let mut history = three_steps();
        let before = history.clone();
        assert!(history.undo() && history.undo() && !history.undo());
        assert_eq!(history.design(), &demo::turnstone());
        assert!(history.redo() && history.redo() && !history.redo());
        assert_eq!(history, before);
    }

    #[test]
    fn a_new_step_after_undo_forgets_what_was_undone() {
        let mut history = three_steps();
        history.undo();
        assert_eq!((history.undo_name(), history.redo_name()), (Some("Knot"), Some("Sanderling")));
        history.commit("Dotterel", history.design().renamed("Dotterel").unwrap());
        assert_eq!((history.steps().len(), history.redo_name()), (3, None));
    }
}
