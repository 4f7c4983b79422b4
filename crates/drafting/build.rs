//! Packs the faces for the binary, which would carry 400 kB more with them as they are.

use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::error::Error;
use std::io::Write;
use std::path::Path;
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let to = env::var("OUT_DIR")?;
    for face in ["LiberationSans-Regular", "LiberationSans-Bold"] {
        let from = format!("../../assets/fonts/{face}.ttf");
        println!("cargo::rerun-if-changed={from}");
        let mut packed = ZlibEncoder::new(Vec::new(), Compression::best());
        packed.write_all(&fs::read(&from)?)?;
        fs::write(Path::new(&to).join(face), packed.finish()?)?;
    }
    Ok(())
}
