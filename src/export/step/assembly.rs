//! The model tree in, products, their placements, colors and layers out.
//!
//! Parts that share shape, kind, material, stock, look, stage, mark and group are one product with several occurrences.
//! A product is named after its kind with a number; an occurrence bears its part's id alone, since some
//! readers take its description for its name. The mark of the cut list is an attribute of the product.

use std::collections::BTreeMap;

use super::attribute::Properties;
use super::style::Styles;
use super::text::{Id, Text, quoted};
use super::{Context, body};
use crate::design::{Group, Stage};
use crate::export::item::{AnyKind, Item, What};
use crate::export::products::Bodies;
use crate::export::tree::{Branch, Child};
use crate::geom::Frame;

/// A product as occurrences refer to it.
#[derive(Debug, Clone, Copy)]
struct Product {
    definition: Id,
    representation: Id,
}

/// What makes two parts the same product.
type ProductKey = (
    usize,
    AnyKind,
    &'static str,
    Group,
    Option<Stage>,
    Option<String>,
    Option<(&'static str, String)>,
);

/// The assembly under construction.
struct Assembly<'a> {
    text: &'a mut Text,
    context: &'a Context,
    bodies: &'a Bodies<'a>,
    items: &'a [Item<'a>],
    styles: Styles,
    properties: Properties,
    styled: Vec<Id>,
    /// Products of parts.
    made: BTreeMap<ProductKey, Product>,
    /// How many products there are of a kind.
    numbers: BTreeMap<&'static str, usize>,
    layers: BTreeMap<Group, Vec<Id>>,
    occurrences: usize,
}

/// Writes the whole assembly.
pub(super) fn write(
    text: &mut Text,
    context: &Context,
    bodies: &Bodies<'_>,
    items: &[Item<'_>],
    tree: &Branch,
) {
    let mut assembly = Assembly {
        text,
        context,
        bodies,
        items,
        styles: Styles::default(),
        properties: Properties::new(bodies.design),
        styled: Vec::new(),
        made: BTreeMap::new(),
        numbers: BTreeMap::new(),
        layers: BTreeMap::new(),
        occurrences: 0,
    };
    assembly.branch(tree);
    assembly.presentation();
}

impl Assembly<'_> {
    /// Adds a branch as a product made of what hangs on it.
    fn branch(&mut self, branch: &Branch) -> Product {
        let children: Vec<(Product, String, Frame)> = branch
            .children
            .iter()
            .map(|child| match child {
                Child::Branch(child) => (self.branch(child), child.name.clone(), Frame::WORLD),
                Child::Leaf(place) => {
                    let item = self.items[*place];
                    (self.part(&item), item.id().to_owned(), item.placed.frame)
                }
            })
            .collect();
        let places: Vec<Id> = children
            .iter()
            .map(|(_, _, frame)| self.text.frame(frame.origin, frame.z, frame.x))
            .collect();
        let name = quoted(&branch.name);
        let mut members = vec![self.context.origin];
        members.extend(&places);
        let representation = self.text.begin("SHAPE_REPRESENTATION(");
        self.text.put(&name).put(",").list(&members);
        self.text.put(",").id(self.context.geometry).put(")").end();
        let path = if branch.path.is_empty() {
            &branch.name
        } else {
            &branch.path
        };
        let product = self.product(&quoted(path), &name, representation);
        for ((child, id, _), place) in children.iter().zip(places) {
            self.occurrence(product, *child, id, place);
        }
        product
    }

    /// The product of a part, added when its like has not been seen.
    fn part(&mut self, item: &Item<'_>) -> Product {
        let look = item.look();
        let stage = match item.what {
            What::Part(part) => Some(part.stage),
            What::Clearance(_) => None,
        };
        let shape = item.placed.shape;
        let mark = self.properties.mark(item.id()).map(str::to_owned);
        let stuff = match item.what {
            What::Part(part) => Some((part.material.name, part.stock.to_string())),
            What::Clearance(_) => None,
        };
        let key = (
            shape,
            item.kind(),
            look.name,
            item.group(),
            stage,
            mark,
            stuff,
        );
        if let Some(product) = self.made.get(&key) {
            return *product;
        }
        let number = self.numbers.entry(item.kind_name()).or_default();
        *number += 1;
        let name = quoted(&format!("{} {number}", item.kind_name()));
        let brep = &self.bodies.solids.shapes[item.placed.shape].brep;
        let solid = body::solid(self.text, self.context, brep, &name);
        let representation = self.text.begin("ADVANCED_BREP_SHAPE_REPRESENTATION(");
        self.text
            .put(&name)
            .put(",")
            .list(&[self.context.origin, solid]);
        self.text.put(",").id(self.context.geometry).put(")").end();
        let product = self.product(&name, &name, representation);
        if let What::Part(part) = item.what {
            self.properties
                .add(self.text, self.context, part, product.definition);
        }
        let style = self.styles.style(self.text, &look);
        let styled = self.text.begin("STYLED_ITEM('color',");
        self.text.list(&[style]).put(",").id(solid).put(")").end();
        self.styled.push(styled);
        self.layers.entry(item.group()).or_default().push(solid);
        self.made.insert(key, product);
        product
    }

    /// Adds a product with this shape; id and name are already in quotes.
    fn product(&mut self, id: &str, name: &str, representation: Id) -> Product {
        let context = self.context;
        let text = &mut *self.text;
        let product = text.add(&format!("PRODUCT({id},{name},'',({}))", context.product));
        text.add(&format!(
            "PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))"
        ));
        let formation = text.add(&format!("PRODUCT_DEFINITION_FORMATION('','',{product})"));
        let definition = text.add(&format!(
            "PRODUCT_DEFINITION('design','',{formation},{})",
            context.definition
        ));
        let shape = text.add(&format!("PRODUCT_DEFINITION_SHAPE('','',{definition})"));
        text.add(&format!(
            "SHAPE_DEFINITION_REPRESENTATION({shape},{representation})"
        ));
        Product {
            definition,
            representation,
        }
    }

    /// Hangs a product on another at a place in it; the name is already in quotes.
    fn occurrence(&mut self, parent: Product, child: Product, id: &str, place: Id) {
        self.occurrences += 1;
        let name = quoted(id);
        let origin = self.context.origin;
        let text = &mut *self.text;
        let usage = text.add(&format!(
            "NEXT_ASSEMBLY_USAGE_OCCURRENCE('{}',{name},'',{},{},$)",
            self.occurrences, parent.definition, child.definition
        ));
        let shape = text.add(&format!("PRODUCT_DEFINITION_SHAPE('','',{usage})"));
        let transform = text.add(&format!(
            "ITEM_DEFINED_TRANSFORMATION('','',{origin},{place})"
        ));
        let relation = text.add(&format!(
            "(REPRESENTATION_RELATIONSHIP('','',{},{})\
             REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION({transform})\
             SHAPE_REPRESENTATION_RELATIONSHIP())",
            child.representation, parent.representation
        ));
        text.add(&format!(
            "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({relation},{shape})"
        ));
    }

    /// Adds what gathers the colors, and a layer for each group.
    fn presentation(&mut self) {
        let text = &mut *self.text;
        if !self.styled.is_empty() {
            text.begin("MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION('',");
            text.list(&self.styled)
                .put(",")
                .id(self.context.geometry)
                .put(")")
                .end();
        }
        for (group, solids) in &self.layers {
            text.begin("PRESENTATION_LAYER_ASSIGNMENT(");
            text.put(&quoted(group.name()))
                .put(",'',")
                .list(solids)
                .put(")")
                .end();
        }
    }
}
