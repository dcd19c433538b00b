//! What files are made of: a design, and all that follows from it, each made when a file first asks for it.

use std::cell::{OnceCell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use super::takeoff::lists::Taken;
use super::{ExportError, Format, Named, Set, StepForm, sheet_svg};
use crate::check::{self, Assumption, Finding, Shared, Verdict};
use crate::design::Design;
use crate::drawing::{self, Paper, Sheet};
use crate::geom::Mesh;
use crate::scale::ScaleModel;
use crate::solids::{Proved, Solids};
use crate::takeoff::{Takeoff, takeoff};

/// What files are made of. What is given is taken as it is, and all else is made when it is first asked for.
#[derive(Debug)]
pub struct Products<'a> {
    /// The design.
    pub design: &'a Design,
    /// How the STEP file is written.
    pub step: StepForm,
    /// The paper of the drawings.
    pub paper: Paper,
    /// The scale model, for its own files alone: only its maker knows the printer.
    pub scale: Option<ScaleModel>,
    /// The design with its solids, where some have been found to be none; those are not shown.
    pub proved: Option<&'a Proved>,
    /// The solids, where nothing has been proved before.
    pub solids: OnceCell<Solids>,
    /// The findings, worst first, with their remedies.
    pub findings: OnceCell<Vec<Finding>>,
    /// What was taken for granted, worst first.
    pub assumptions: OnceCell<Vec<Assumption>>,
    /// Ids of the parts that fail a check; they are shown as such.
    pub failing: OnceCell<BTreeSet<String>>,
    /// Where parts are in one another.
    pub overlaps: OnceCell<Vec<Shared>>,
    /// What to cut and to buy.
    pub takeoff: OnceCell<Takeoff>,
    /// The drawings.
    pub sheets: OnceCell<Vec<Sheet>>,
    /// The drawings as title and SVG text.
    pub drawings: OnceCell<Vec<(String, String)>>,
    /// Files of the model that are made already, since the packet holds some of them too.
    pub made: RefCell<BTreeMap<&'static str, Vec<u8>>>,
}

/// The model as it is shown.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bodies<'a> {
    pub(super) design: &'a Design,
    pub(super) solids: &'a Solids,
    pub(super) failing: &'a BTreeSet<String>,
    pub(super) overlaps: &'a [Shared],
}

impl<'a> Products<'a> {
    /// A design of which nothing is made yet.
    pub fn of(design: &'a Design) -> Self {
        Self {
            design,
            step: StepForm::default(),
            paper: Paper::usual(design.params.project.unit),
            scale: None,
            proved: None,
            solids: OnceCell::new(),
            findings: OnceCell::new(),
            assumptions: OnceCell::new(),
            failing: OnceCell::new(),
            overlaps: OnceCell::new(),
            takeoff: OnceCell::new(),
            sheets: OnceCell::new(),
            drawings: OnceCell::new(),
            made: RefCell::default(),
        }
    }

    pub(super) fn bodies(&self) -> Result<Bodies<'_>, ExportError> {
        Ok(Bodies {
            design: self.proved.map_or(self.design, |it| &it.shown),
            solids: self.solids()?,
            failing: self.failing(),
            overlaps: self.overlaps.get_or_init(|| check::shared(self.design)),
        })
    }

    /// The solids.
    ///
    /// # Errors
    /// Where a part is no closed body.
    pub fn solids(&self) -> Result<&Solids, ExportError> {
        if let Some(proved) = self.proved {
            return Ok(&proved.solids);
        }
        if let Some(made) = self.solids.get() {
            return Ok(made);
        }
        let made = Solids::new(self.design, Mesh::CHORD_ERROR)?;
        Ok(self.solids.get_or_init(|| made))
    }

    /// The findings, with their remedies.
    pub fn findings(&self) -> &[Finding] {
        self.findings.get_or_init(|| {
            let mut findings = check::check(self.design);
            check::try_remedies(&self.design.params, &mut findings);
            findings
        })
    }

    /// What was taken for granted.
    pub fn assumptions(&self) -> &[Assumption] {
        self.assumptions
            .get_or_init(|| check::assumptions(&self.design.params, self.findings()))
    }

    fn failing(&self) -> &BTreeSet<String> {
        self.failing.get_or_init(|| {
            let failing = self.findings().iter();
            let failing = failing.filter(|it| it.verdict == Verdict::Fail);
            failing.flat_map(|it| it.parts.iter().cloned()).collect()
        })
    }

    /// What to cut and to buy.
    pub fn takeoff(&self) -> &Takeoff {
        self.takeoff.get_or_init(|| takeoff(self.design))
    }

    /// The drawings.
    pub fn sheets(&self) -> &[Sheet] {
        self.sheets
            .get_or_init(|| drawing::sheets(self.design, self.takeoff(), self.paper))
    }

    pub(super) fn drawings(&self) -> &[(String, String)] {
        self.drawings.get_or_init(|| {
            let sheets = self.sheets().iter();
            sheets.map(|it| (it.title.clone(), sheet_svg(it))).collect()
        })
    }

    pub(super) fn taken(&self) -> Taken<'_> {
        Taken {
            design: self.design,
            takeoff: self.takeoff(),
        }
    }

    /// The files of a format; those of the model are kept.
    ///
    /// # Errors
    /// Those of [`Format::files`].
    pub fn files(&self, format: &'static Format) -> Result<Vec<Named>, ExportError> {
        if let Some(made) = self.made.borrow().get(format.file) {
            return Ok(vec![(format.file.to_owned(), made.clone())]);
        }
        let files = format.files(self)?;
        if let (Set::Model, [(_, bytes)]) = (format.set, files.as_slice()) {
            self.made.borrow_mut().insert(format.file, bytes.clone());
        }
        Ok(files)
    }
}
