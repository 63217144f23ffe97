//! A binary glTF file being built: nodes, meshes, materials, and the bytes of corners and triangles.
//!
//! **Input:** solids in the frame of the folded tray (mm), with names. **Output:** the file, in metres with y up. It knows
//! nothing of trays.

use std::borrow::Cow;
use std::collections::BTreeMap;

use gltf::binary::{Glb, Header};
use gltf::json::accessor::{ComponentType, GenericComponentType, Type};
use gltf::json::buffer::{Target, View};
use gltf::json::extras::RawValue;
use gltf::json::material::{PbrBaseColorFactor, PbrMetallicRoughness, StrengthFactor};
use gltf::json::mesh::{Primitive, Semantic};
use gltf::json::validation::{Checked, USize64};
use gltf::json::{
    Accessor, Asset, Buffer, Extras, Index, Material, Mesh, Node, Root, Scene, Value,
};
use serde::Serialize;
use traywright_document::ExportError;
use traywright_document::space::Vec3;

use crate::solid::{Solid, Surface};

/// A node of the file.
pub(crate) type NodeIndex = Index<Node>;

/// The surfaces in the order of their materials: name and colour, linear as the format wants it.
// Source: a choice of this project: white card with a grey-brown outside, so that the faces can be told apart.
const MATERIALS: [(Surface, &str, [f32; 3]); 6] = [
    (Surface::Inner, "inner face", [0.86, 0.80, 0.68]),
    (Surface::Outer, "outer face", [0.45, 0.33, 0.20]),
    (Surface::Edge, "cut edge", [0.70, 0.60, 0.45]),
    (Surface::Item, "item", [0.10, 0.25, 0.45]),
    (Surface::Pad, "pad", [0.35, 0.45, 0.35]),
    (Surface::Box, "box", [0.20, 0.20, 0.22]),
];

/// The views of the one buffer: corners, then triangles.
const CORNERS: u32 = 0;
const TRIANGLES: u32 = 1;

/// Bytes of a corner: three single-precision numbers.
const CORNER_BYTES: usize = 12;
/// Bytes of the number of a corner.
const INDEX_BYTES: usize = 4;

/// The file being built.
pub(crate) struct GltfFile {
    root: Root,
    corners: Vec<u8>,
    triangles: Vec<u8>,
    place: Box<dyn Fn(Vec3) -> Vec3>,
}

impl GltfFile {
    /// A file without nodes. `place` moves a point of the folded frame (mm) into the file (m).
    pub(crate) fn new(place: impl Fn(Vec3) -> Vec3 + 'static) -> GltfFile {
        let material = |(_, name, [red, green, blue]): (Surface, &str, [f32; 3])| Material {
            name: Some(name.to_owned()),
            pbr_metallic_roughness: PbrMetallicRoughness {
                base_color_factor: PbrBaseColorFactor([red, green, blue, 1.0]),
                metallic_factor: StrengthFactor(0.0),
                roughness_factor: StrengthFactor(0.9),
                ..PbrMetallicRoughness::default()
            },
            ..Material::default()
        };
        GltfFile {
            root: Root {
                asset: Asset {
                    generator: Some("traywright".to_owned()),
                    ..Asset::default()
                },
                materials: MATERIALS.map(material).into(),
                ..Root::default()
            },
            corners: Vec::new(),
            triangles: Vec::new(),
            place: Box::new(place),
        }
    }

    /// Adds a node with a solid.
    pub(crate) fn solid(&mut self, name: &str, solid: &Solid, extras: Extras) -> NodeIndex {
        let positions = self.positions(&solid.corners);
        let primitives = MATERIALS
            .iter()
            .zip(0..)
            .filter_map(|((surface, ..), material)| {
                let triangles = solid.triangles.get(surface)?;
                Some((material, triangles))
            });
        let primitives: Vec<Primitive> = primitives
            .map(|(material, triangles)| Primitive {
                attributes: BTreeMap::from([(Checked::Valid(Semantic::Positions), positions)]),
                indices: Some(self.indices(triangles)),
                material: Some(Index::new(material)),
                extensions: None,
                extras: None,
                mode: Checked::Valid(gltf::json::mesh::Mode::Triangles),
                targets: None,
            })
            .collect();
        let mesh = self.root.push(Mesh {
            name: Some(name.to_owned()),
            primitives,
            extensions: None,
            extras: None,
            weights: None,
        });
        self.root.push(Node {
            name: Some(name.to_owned()),
            mesh: Some(mesh),
            extras,
            ..Node::default()
        })
    }

    /// Adds a node that holds others.
    pub(crate) fn group(
        &mut self,
        name: &str,
        children: Vec<NodeIndex>,
        extras: Extras,
    ) -> NodeIndex {
        self.root.push(Node {
            name: Some(name.to_owned()),
            children: (!children.is_empty()).then_some(children),
            extras,
            ..Node::default()
        })
    }

    /// Adds a scene; the first is the one that a reader shows.
    pub(crate) fn scene(&mut self, name: &str, nodes: Vec<NodeIndex>) {
        let scene = self.root.push(Scene {
            name: Some(name.to_owned()),
            nodes,
            extensions: None,
            extras: None,
        });
        self.root.scene.get_or_insert(scene);
    }

    /// Corners as an accessor.
    fn positions(&mut self, corners: &[Vec3]) -> Index<Accessor> {
        let (mut least, mut most) = ([f32::INFINITY; 3], [f32::NEG_INFINITY; 3]);
        let first = self.corners.len();
        for &corner in corners {
            // Adding 0 turns -0 into 0.
            let placed = (self.place)(corner).map(|along| along as f32 + 0.0);
            for axis in 0..3 {
                least[axis] = least[axis].min(placed[axis]);
                most[axis] = most[axis].max(placed[axis]);
                self.corners.extend(placed[axis].to_le_bytes());
            }
        }
        self.root.push(Accessor {
            min: Some(Value::from(least.to_vec())),
            max: Some(Value::from(most.to_vec())),
            ..accessor(
                CORNERS,
                first,
                corners.len(),
                ComponentType::F32,
                Type::Vec3,
            )
        })
    }

    /// Triangles as an accessor.
    fn indices(&mut self, triangles: &[[usize; 3]]) -> Index<Accessor> {
        let first = self.triangles.len();
        for &corner in triangles.iter().flatten() {
            self.triangles.extend((corner as u32).to_le_bytes());
        }
        let count = 3 * triangles.len();
        self.root.push(accessor(
            TRIANGLES,
            first,
            count,
            ComponentType::U32,
            Type::Scalar,
        ))
    }

    /// The bytes of the file.
    pub(crate) fn bytes(mut self) -> Result<Vec<u8>, ExportError> {
        let [corners, triangles] = [self.corners.len(), self.triangles.len()];
        let buffer = self.root.push(Buffer {
            byte_length: USize64::from(corners + triangles),
            name: None,
            uri: None,
            extensions: None,
            extras: None,
        });
        let view = |first: usize, length: usize, stride: Option<usize>, target: Target| View {
            buffer,
            byte_length: USize64::from(length),
            byte_offset: Some(USize64::from(first)),
            byte_stride: stride.map(gltf::json::buffer::Stride),
            name: None,
            target: Some(Checked::Valid(target)),
            extensions: None,
            extras: None,
        };
        self.root
            .push(view(0, corners, Some(CORNER_BYTES), Target::ArrayBuffer));
        self.root
            .push(view(corners, triangles, None, Target::ElementArrayBuffer));
        let json = self.root.to_vec().map_err(unwritten)?;
        let mut bytes = self.corners;
        bytes.extend(self.triangles);
        let file = Glb {
            header: Header {
                magic: *b"glTF",
                version: 2,
                length: 0,
            },
            json: Cow::Owned(json),
            bin: Some(Cow::Owned(bytes)),
        };
        file.to_vec().map_err(unwritten)
    }
}

/// An accessor of one of the two views. Offsets are whole numbers of elements, so that all are aligned.
fn accessor(
    view: u32,
    first: usize,
    count: usize,
    component: ComponentType,
    kind: Type,
) -> Accessor {
    debug_assert!(first.is_multiple_of(INDEX_BYTES));
    Accessor {
        buffer_view: Some(Index::new(view)),
        byte_offset: Some(USize64::from(first)),
        count: USize64::from(count),
        component_type: Checked::Valid(GenericComponentType(component)),
        type_: Checked::Valid(kind),
        min: None,
        max: None,
        name: None,
        normalized: false,
        sparse: None,
        extensions: None,
        extras: None,
    }
}

/// What a node says about itself to other programs.
pub(crate) fn extras(told: &impl Serialize) -> Result<Extras, ExportError> {
    let text = serde_json::to_string(told).map_err(unwritten)?;
    Ok(Some(RawValue::from_string(text).map_err(unwritten)?))
}

fn unwritten(why: impl std::fmt::Display) -> ExportError {
    ExportError::Written(format!("the glTF file cannot be written: {why}"))
}
