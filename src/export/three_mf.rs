//! Closed bodies in, a 3MF file out: a container of one model with names, unit and colors.
//!
//! *Units and frame*: millimetres of the printed model, z up from the bed. Corners are written with no more digits
//! than tell a number of 32 bits from its neighbors, so that what differs in the STL differs here.
//!
//! *Source*: 3MF Core Specification 1.3, chapters 2 (the package and its parts), 3.4 (the model), 4 (objects: what is
//! referred to stands before what refers to it) and 5.1 (base materials).

use std::fmt::Write as _;
use std::io::{Cursor, Write as _};

use zip::result::ZipResult;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, System, ZipWriter};

use super::escape::escaped;

/// Colors: what is built, and what must stay clear.
const COLORS: [(&str, &str); 2] = [("chase", "#DEBA84FF"), ("clearance", "#FF6A30FF")];

/// Where the model lies in the container. The specification lets any name stand; some readers look for this one.
const MODEL: &str = "3D/3dmodel.model";

/// What kinds of parts there are, by the ends of their names.
const KINDS: &str = r#"<?xml version="1.0" encoding="utf-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
  <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
  <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
"#;

/// One body.
pub(super) struct Object<'a> {
    /// Its name, in the file and on the printer's screen.
    pub(super) name: &'a str,
    /// Its place in [`COLORS`].
    pub(super) color: usize,
    /// Its corners, each once.
    pub(super) corners: Vec<[f32; 3]>,
    /// Places of three corners, counterclockwise from outside.
    pub(super) triangles: Vec<[usize; 3]>,
}

/// The bodies as one file.
pub(super) fn three_mf(title: &str, objects: &[Object<'_>]) -> ZipResult<Vec<u8>> {
    let parts = [
        ("[Content_Types].xml", KINDS.to_owned()),
        ("_rels/.rels", relations()),
        (MODEL, model(title, objects)),
    ];
    // Everything that the container could take from the clock or the platform is said.
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(6))
        .last_modified_time(DateTime::DEFAULT)
        .system(System::Unix)
        .unix_permissions(0o644);
    let mut container = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        container.start_file(name, options)?;
        container.write_all(text.as_bytes())?;
    }
    Ok(container.finish()?.into_inner())
}

/// Which part is the model.
fn relations() -> String {
    format!(
        r#"<?xml version="1.0" encoding="utf-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
  <Relationship Id="model" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel" Target="/{MODEL}"/>
</Relationships>
"#
    )
}

/// The model's XML. The colors have the first number, the bodies those that follow.
fn model(title: &str, objects: &[Object<'_>]) -> String {
    let mut xml = format!(
        r#"<?xml version="1.0" encoding="utf-8"?>
<model xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02" unit="millimeter">
  <metadata name="Title">{}</metadata>
  <resources>
    <basematerials id="1">
"#,
        escaped(title)
    );
    for (name, color) in COLORS {
        let _ = writeln!(xml, r#"      <base name="{name}" displaycolor="{color}"/>"#);
    }
    xml.push_str("    </basematerials>\n");
    for (id, object) in (2..).zip(objects) {
        push_object(&mut xml, id, object);
    }
    xml.push_str("  </resources>\n  <build>\n");
    for (id, object) in (2..).zip(objects) {
        let name = escaped(object.name);
        let _ = writeln!(xml, r#"    <item objectid="{id}" partnumber="{name}"/>"#);
    }
    xml.push_str("  </build>\n</model>\n");
    xml
}

fn push_object(xml: &mut String, id: usize, object: &Object<'_>) {
    let (name, color) = (escaped(object.name), object.color);
    let _ = writeln!(
        xml,
        r#"    <object id="{id}" name="{name}" pid="1" pindex="{color}">"#
    );
    xml.push_str("      <mesh>\n        <vertices>\n");
    for [x, y, z] in &object.corners {
        let _ = writeln!(xml, r#"          <vertex x="{x}" y="{y}" z="{z}"/>"#);
    }
    xml.push_str("        </vertices>\n        <triangles>\n");
    for [a, b, c] in &object.triangles {
        let _ = writeln!(xml, r#"          <triangle v1="{a}" v2="{b}" v3="{c}"/>"#);
    }
    xml.push_str("        </triangles>\n      </mesh>\n    </object>\n");
}
