//! Items in, the model tree out: group, then the path that an id spells, then the part.

use super::item::Item;

/// A branch of the model tree.
#[derive(Debug, Clone, Default)]
pub(super) struct Branch {
    /// Its name: one step of a path.
    pub(super) name: String,
    /// The whole path to it.
    pub(super) path: String,
    /// What hangs on it, in order of first appearance.
    pub(super) children: Vec<Child>,
}

/// What hangs on a branch.
#[derive(Debug, Clone)]
pub(super) enum Child {
    /// A further branch.
    Branch(Branch),
    /// A thing of the model, as a place in the list of items.
    Leaf(usize),
}

impl Branch {
    /// The tree of a model whose items stand in the order of their groups.
    pub(super) fn root(name: &str, items: &[Item<'_>]) -> Self {
        let mut root = Self {
            name: name.to_owned(),
            ..Self::default()
        };
        for (place, item) in items.iter().enumerate() {
            let group = item.group().name();
            let mut steps: Vec<&str> = item.id().split('/').collect();
            steps.pop();
            // `clearances/clearance/unit` and `vent/vent/pipe` would say the same thing twice.
            if steps
                .first()
                .is_some_and(|step| *step == group || Some(*step) == group.strip_suffix('s'))
            {
                steps.remove(0);
            }
            let mut branch = root.branch(group);
            for step in steps {
                branch = branch.branch(step);
            }
            branch.children.push(Child::Leaf(place));
        }
        root
    }

    /// The branch of this name, made if it is not there.
    fn branch(&mut self, name: &str) -> &mut Self {
        let found = self
            .children
            .iter()
            .position(|child| matches!(child, Child::Branch(branch) if branch.name == name));
        let place = found.unwrap_or_else(|| {
            let path = if self.path.is_empty() {
                name.to_owned()
            } else {
                format!("{}/{name}", self.path)
            };
            self.children.push(Child::Branch(Self {
                name: name.to_owned(),
                path,
                children: Vec::new(),
            }));
            self.children.len() - 1
        });
        match &mut self.children[place] {
            Child::Branch(branch) => branch,
            Child::Leaf(_) => unreachable!("the place is a branch's"),
        }
    }
}
