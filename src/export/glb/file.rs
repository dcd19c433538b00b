//! JSON and binary data in, one GLB file out.
//!
//! *Errors*: what the format's own types do not accept, and files over 4 GB.

use gltf_json::validation::Validate;

/// Packs both chunks behind the header, after the JSON has been held against the format's types.
pub(super) fn pack(text: String, data: Vec<u8>) -> Result<Vec<u8>, String> {
    validate(&text)?;
    let mut chunks = Vec::new();
    push_chunk(&mut chunks, *b"JSON", text.into_bytes(), b' ')?;
    if !data.is_empty() {
        push_chunk(&mut chunks, *b"BIN\0", data, 0)?;
    }
    let mut file = Vec::with_capacity(chunks.len() + 12);
    file.extend(b"glTF");
    file.extend(2_u32.to_le_bytes());
    file.extend(length(chunks.len() + 12)?.to_le_bytes());
    file.extend(chunks);
    Ok(file)
}

fn validate(text: &str) -> Result<(), String> {
    let typed: gltf_json::Root = serde_json::from_str(text).map_err(|error| error.to_string())?;
    let mut faults = Vec::new();
    typed.validate(&typed, gltf_json::Path::new, &mut |path, fault| {
        faults.push(format!("{}: {fault}", path()));
    });
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults.join("; "))
    }
}

fn push_chunk(
    file: &mut Vec<u8>,
    kind: [u8; 4],
    mut bytes: Vec<u8>,
    filler: u8,
) -> Result<(), String> {
    bytes.resize(bytes.len().next_multiple_of(4), filler);
    file.extend(length(bytes.len())?.to_le_bytes());
    file.extend(kind);
    file.extend(bytes);
    Ok(())
}

fn length(bytes: usize) -> Result<u32, String> {
    u32::try_from(bytes).map_err(|_| "larger than 4 GB".to_owned())
}
