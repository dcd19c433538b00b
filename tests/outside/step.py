"""Reads every STEP file of each folder with a geometry kernel and holds it against the manifest.

The file's name says its form: `ap214` in it is the older schema, `in` is inches.

The kernel reads twice: as an assembly, with its usual repairs, for the tree, names, colors, layers
and placements; and body by body without any repair, so that a shell that is open or inside out shows.
"""

import sys

import numpy
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import GeomAbs_Circle, GeomAbs_Cylinder, GeomAbs_Line, GeomAbs_Plane, GeomAbs_Torus
from OCP.GProp import GProp_GProps
from OCP.Message import Message_ProgressRange
from OCP.Quantity import Quantity_ColorRGBA
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.STEPControl import STEPControl_Reader
from OCP.StepData import StepData_Factors
from OCP.StepToTopoDS import StepToTopoDS_Builder
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name, TDataStd_NamedData
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE, TopAbs_SOLID, TopAbs_VERTEX
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS
from OCP.Transfer import Transfer_TransientProcess
from OCP.collections import Sequence_TCollection_AsciiString, Sequence_TDF_Label
from OCP.XCAFDoc import XCAFDoc_ColorSurf, XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from report import Report, folders, rises

# ISO 10303-242 and ISO 10303-214, by their object identifiers.
AP242 = "FILE_SCHEMA(('AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }'));"
AP214 = "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));"
INCH = 25.4


def explore(shape, kind):
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def properties(shape):
    found = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, found)
    return found


def name_of(label):
    name = TDataStd_Name()
    return name.Get().ToExtString() if label.FindAttribute(TDataStd_Name.GetID_s(), name) else ""


class Leaf:
    def __init__(self, path, product, shape):
        self.path = path
        self.product = product
        self.shape = shape


def leaves(label, path, location):
    """Every occurrence of a part under a product, with the names on the way to it."""
    components = Sequence_TDF_Label()
    XCAFDoc_ShapeTool.GetComponents_s(label, components)
    for place in range(1, components.Length() + 1):
        component = components.Value(place)
        product = TDF_Label()
        XCAFDoc_ShapeTool.GetReferredShape_s(component, product)
        here = location.Multiplied(XCAFDoc_ShapeTool.GetLocation_s(component))
        names = [*path, name_of(component)]
        if XCAFDoc_ShapeTool.IsAssembly_s(product):
            yield from leaves(product, names, here)
        else:
            shape = XCAFDoc_ShapeTool.GetShape_s(product).Located(here)
            yield Leaf(names, product, shape)


def read_assembly(report, path):
    document = TDocStd_Document(TCollection_ExtendedString("XmlXCAF"))
    reader = STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.SetColorMode(True)
    reader.SetLayerMode(True)
    reader.SetMetaMode(True)
    reader.ReadFile(str(path))
    report.check(reader.Transfer(document), f"{path}: the kernel takes the file")
    roots = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).GetFreeShapes(roots)
    report.check(roots.Length() == 1, f"{path}: one root, found {roots.Length()}")
    root = roots.Value(1)
    return document, name_of(root), list(leaves(root, [], TopLoc_Location()))


def check_attributes(report, leaf, item):
    """The user-defined attributes of a product: texts, and lengths in millimetres."""
    data = TDataStd_NamedData()
    count = 0
    if leaf.product.FindAttribute(TDataStd_NamedData.GetID_s(), data):
        count = data.GetStringsContainer().Extent() + data.GetRealsContainer().Extent()
    report.check(count == len(item.attributes), f"{item.id}: {count} attributes of {item.attributes}")
    for name, expected in item.attributes.items() if count > 0 else ():
        key = TCollection_ExtendedString(name)
        if isinstance(expected, str):
            found = data.GetString(key).ToExtString() if data.HasString(key) else None
            report.check(found == expected, f"{item.id}: {name} is {expected}, found {found}")
        else:
            found = data.GetReal(key) if data.HasReal(key) else float("nan")
            report.near(found, expected, 1e-6, f"{item.id}: {name}")


def check_leaf(report, leaf, item, colors):
    solids = list(explore(leaf.shape, TopAbs_SOLID))
    report.check(len(solids) == 1, f"{item.id}: one solid, found {len(solids)}")
    report.check(leaf.path[0] == item.group, f"{item.id}: under its group, found {leaf.path}")
    report.check(BRepCheck_Analyzer(leaf.shape).IsValid(), f"{item.id}: valid")
    found = properties(leaf.shape)
    report.near(found.Mass() / item.volume, 1.0, 1e-9, f"{item.id}: volume over the exact one")
    check_place(report, leaf, item, found)
    check_geometry(report, leaf, item)
    check_attributes(report, leaf, item)
    color = Quantity_ColorRGBA()
    styled = any(
        colors.GetColor_s(label, XCAFDoc_ColorSurf, color) for label in with_children(leaf.product)
    )
    report.check(styled, f"{item.id}: has a color")
    if not item.is_part:
        report.check(color.Alpha() < 1.0, f"{item.id}: lets the model show through")
    elif item.group == "framing":
        report.check(color.Alpha() == 1.0, f"{item.id}: hides what is behind it")


def check_place(report, leaf, item, found):
    center = found.CentreOfMass()
    corners = item.vertices[item.triangles]
    apex = item.vertices[0]
    edges = corners - apex
    six = numpy.einsum("ij,ij->i", edges[:, 0], numpy.cross(edges[:, 1], edges[:, 2]))
    expected = apex + (six[:, None] * edges.sum(axis=1) / 4).sum(axis=0) / six.sum()
    off = numpy.abs(numpy.array([center.X(), center.Y(), center.Z()]) - expected).max()
    report.near(off, 0.0, 0.1 if item.is_round else 1e-5, f"{item.id}: center of mass")


def check_geometry(report, leaf, item):
    surfaces = {BRepAdaptor_Surface(TopoDS.Face(f)).GetType() for f in explore(leaf.shape, TopAbs_FACE)}
    curves = {BRepAdaptor_Curve(TopoDS.Edge(e)).GetType() for e in explore(leaf.shape, TopAbs_EDGE)}
    true = {GeomAbs_Plane, GeomAbs_Cylinder, GeomAbs_Torus}
    report.check(surfaces <= true, f"{item.id}: true surfaces, found {surfaces}")
    report.check(curves <= {GeomAbs_Line, GeomAbs_Circle}, f"{item.id}: true curves, found {curves}")
    is_round = surfaces != {GeomAbs_Plane}
    report.check(is_round == item.is_round, f"{item.id}: round where the part is")


def with_children(label):
    yield label
    parts = Sequence_TDF_Label()
    XCAFDoc_ShapeTool.GetSubShapes_s(label, parts)
    for place in range(1, parts.Length() + 1):
        yield parts.Value(place)


def check_layers(report, document, items, found):
    layers = XCAFDoc_DocumentTool.LayerTool_s(document.Main())
    for leaf in found:
        names = set()
        for label in with_children(leaf.product):
            sequence = Sequence_TDF_Label()
            layers.GetLayers(label, sequence)
            names |= {name_of(sequence.Value(i)) for i in range(1, sequence.Length() + 1)}
        item = items.get(leaf.path[-1])
        if item is not None:
            report.check(names == {item.group}, f"{item.id}: on its group's layer, found {names}")


def raw_solids(path):
    """Every body of the file as it is written, before any repair, with its name."""
    reader = STEPControl_Reader()
    reader.ReadFile(str(path))
    model = reader.StepModel()
    for place in range(1, model.NbEntities() + 1):
        entity = model.Value(place)
        if entity.DynamicType().Name() != "StepShape_ManifoldSolidBrep":
            continue
        process = Transfer_TransientProcess()
        process.SetModel(model)
        builder = StepToTopoDS_Builder()
        builder.Init(entity, process, StepData_Factors(), Message_ProgressRange())
        yield entity.Name().ToCString(), builder.Value()


def check_raw(report, path, items, unit):
    volumes = [item.volume / unit**3 for item in items.values()]
    count = 0
    for name, solid in raw_solids(path):
        count += 1
        volume = properties(solid).Mass()
        report.check(volume > 0.0, f"{path}: {name}: positive volume unrepaired, found {volume}")
        report.check(BRepCheck_Analyzer(solid).IsValid(), f"{path}: {name}: valid unrepaired")
        nearest = min(volumes, key=lambda known: abs(known - volume))
        report.near(volume / nearest, 1.0, 1e-9, f"{path}: {name}: volume unrepaired")
    shapes = len({(item.shape, item.group) for item in items.values()})
    report.check(shapes <= count <= len(items), f"{path}: {count} bodies for {shapes} shapes")


def check_form(report, path):
    """The schema and the unit that the file's name says; the unit in millimetres."""
    words = path.stem.split("-")
    schema = AP214 if "ap214" in words else AP242
    report.check(schema in path.read_text(encoding="ascii"), f"{path}: the schema's exact name")
    reader = STEPControl_Reader()
    reader.ReadFile(str(path))
    names = [Sequence_TCollection_AsciiString() for _ in range(3)]
    reader.FileUnits(*names)
    lengths = {names[0].Value(place).ToCString() for place in range(1, names[0].Length() + 1)}
    expected = "inch" if "in" in words else "millimetre"
    report.check({name.lower() for name in lengths} == {expected}, f"{path}: in {expected}, found {lengths}")
    return INCH if "in" in words else 1.0


def check_file(report, path, manifest, items):
    unit = check_form(report, path)
    document, name, found = read_assembly(report, path)
    report.check(name == manifest["name"], f"{path}: named {manifest['name']}, found {name}")
    names = sorted(leaf.path[-1] for leaf in found)
    report.check(names == sorted(items), f"{path}: a solid for each part, found {names}")
    colors = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    for leaf in found:
        item = items.get(leaf.path[-1])
        if item is None:
            continue
        check_leaf(report, leaf, item, colors)
        if item.id in manifest["rises_to_the_right"]:
            points = [BRep_Tool.Pnt_s(TopoDS.Vertex(v)) for v in explore(leaf.shape, TopAbs_VERTEX)]
            upward = rises([(point.X(), point.Y(), point.Z()) for point in points])
            report.check(upward, f"{path}: {item.id} rises to the right")
    check_layers(report, document, items, found)
    check_raw(report, path, items, unit)


def main():
    report = Report("step")
    for folder, manifest, items in folders(sys.argv[1:]):
        report.check((folder / "model.step").exists(), f"{folder}: has a model.step")
        for path in sorted(folder.glob("model*.step")):
            check_file(report, path, manifest, items)
    report.finish()


if __name__ == "__main__":
    main()
