//! Colours by meaning, for the window by day and by night and for paper.
//!
//! Two signal colours with one meaning each: teal for what is, orange for what is wanted or
//! allowed. Material has muted fills that differ in lightness as well, so that they are told
//! apart in black and white.

use crate::figure::{Fill, Ink, Light, Material, Strength, Surface};

/// A colour: red, green, blue (sRGB) and cover, 0 to 255 each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rgba {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
    /// Cover: 0 lets everything through, 255 nothing.
    pub cover: u8,
}

impl Rgba {
    /// A colour that covers, from `0xRRGGBB`.
    pub const fn opaque(rgb: u32) -> Self {
        let [_, red, green, blue] = rgb.to_be_bytes();
        Self { red, green, blue, cover: 255 }
    }

    /// The same colour as a wash.
    pub const fn with_cover(self, cover: u8) -> Self {
        Self { cover, ..self }
    }
}

/// The colours of every ink and fill.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Palette {
    /// What everything is drawn on.
    pub ground: Rgba,
    inks: [Rgba; 8],
    strong: [Rgba; 3],
    faint: [Rgba; 3],
    wash: u8,
    /// Each surface without light, and with all of it.
    surfaces: [[Rgba; 2]; 8],
}

impl Palette {
    /// The window by day: a quiet warm ground.
    pub const fn light() -> Self {
        Self {
            ground: Rgba::opaque(0xFB_FA_F6),
            inks: LIGHT_INKS,
            strong: [Rgba::opaque(0xDD_C9_9C), Rgba::opaque(0xBB_8C_5A), Rgba::opaque(0xA8_B2_BD)],
            faint: [Rgba::opaque(0xEE_E5_CF), Rgba::opaque(0xDF_C7_AA), Rgba::opaque(0xD6_DB_E0)],
            wash: 34,
            surfaces: LIGHT_SURFACES,
        }
    }

    /// The window by night: the same order, chosen anew.
    pub const fn dark() -> Self {
        Self {
            ground: Rgba::opaque(0x17_1A_1C),
            inks: DARK_INKS,
            strong: [Rgba::opaque(0x6A_5B_3A), Rgba::opaque(0x77_50_2C), Rgba::opaque(0x51_5D_69)],
            faint: [Rgba::opaque(0x3A_34_26), Rgba::opaque(0x44_32_21), Rgba::opaque(0x30_37_3D)],
            wash: 46,
            surfaces: DARK_SURFACES,
        }
    }

    /// Paper: white, and fills that a black-and-white printer keeps apart.
    pub const fn print() -> Self {
        Self {
            ground: Rgba::opaque(0xFF_FF_FF),
            inks: LIGHT_INKS,
            strong: [Rgba::opaque(0xE6_D5_AC), Rgba::opaque(0xB8_8A_59), Rgba::opaque(0xA4_AE_B8)],
            faint: [Rgba::opaque(0xF7_F2_E6), Rgba::opaque(0xE6_D3_BC), Rgba::opaque(0xDF_E3_E7)],
            wash: 34,
            surfaces: LIGHT_SURFACES,
        }
    }

    /// The colour of an ink.
    pub fn ink(&self, ink: Ink) -> Rgba {
        /// How much of a line shows inside a piece: 28 and 10 %.
        const WITHIN: [u8; 2] = [71, 26];
        self.inks[match ink {
            Ink::IsWithin => return self.ink(Ink::Is).with_cover(WITHIN[0]),
            Ink::WantedWithin => return self.ink(Ink::Wanted).with_cover(WITHIN[1]),
            Ink::Line => 0,
            Ink::Quiet => 1,
            Ink::Is => 2,
            Ink::Wanted => 3,
            Ink::Structure => 4,
            Ink::Clear => 5,
            Ink::Edge => 6,
            Ink::Grid => 7,
        }]
    }

    /// The colour of a material.
    pub fn material(&self, material: Material, strength: Strength) -> Rgba {
        let fills = if strength == Strength::Strong { &self.strong } else { &self.faint };
        fills[match material {
            Material::Sand => 0,
            Material::Wood => 1,
            Material::Steel => 2,
        }]
    }

    /// The colour of a solid's side.
    pub fn shaded(&self, surface: Surface, Light(light): Light) -> Rgba {
        let [dark, bright] = self.surfaces[match surface {
            Surface::Canvas => 0,
            Surface::Timber => 1,
            Surface::Metal => 2,
            Surface::Next => 3,
            Surface::Pale => 4,
            Surface::Skin => 5,
            Surface::Strap => 6,
            Surface::Floor => 7,
        }];
        let between = |dark: u8, bright: u8| {
            let (dark, bright, light) = (u32::from(dark), u32::from(bright), u32::from(light));
            u8::try_from((dark * (255 - light) + bright * light) / 255).unwrap_or(u8::MAX)
        };
        Rgba {
            red: between(dark.red, bright.red),
            green: between(dark.green, bright.green),
            blue: between(dark.blue, bright.blue),
            cover: dark.cover,
        }
    }

    /// The plain colour of a fill; none for an empty or a hatched one.
    pub fn fill(&self, fill: Fill) -> Option<Rgba> {
        match fill {
            Fill::None | Fill::Hatch(_) => None,
            Fill::Ground => Some(self.ground),
            Fill::Material(material, strength) => Some(self.material(material, strength)),
            Fill::Solid(ink) => Some(self.ink(ink)),
            Fill::Shaded(surface, light) => Some(self.shaded(surface, light)),
            Fill::Tint(Ink::WantedWithin) => Some(self.ink(Ink::WantedWithin)),
            Fill::Tint(ink) => Some(self.ink(ink).with_cover(self.wash)),
        }
    }
}

const LIGHT_INKS: [Rgba; 8] = [
    Rgba::opaque(0x1B_20_24),
    Rgba::opaque(0x5C_62_67),
    Rgba::opaque(0x00_68_5F),
    Rgba::opaque(0xB0_43_0C),
    Rgba::opaque(0x4A_56_63),
    Rgba::opaque(0x68_49_9B),
    Rgba::opaque(0x4E_48_3A),
    Rgba::opaque(0xD5_D1_C6),
];

const DARK_INKS: [Rgba; 8] = [
    Rgba::opaque(0xEC_EA_E4),
    Rgba::opaque(0xA6_AB_AF),
    Rgba::opaque(0x4F_C4_B1),
    Rgba::opaque(0xF2_95_5E),
    Rgba::opaque(0x9E_AB_B8),
    Rgba::opaque(0xBB_A3_E8),
    Rgba::opaque(0x14_15_14),
    Rgba::opaque(0x35_3A_3F),
];

const SKIN_COVER: u8 = 150;

const LIGHT_SURFACES: [[Rgba; 2]; 8] = [
    [Rgba::opaque(0x7C_79_65), Rgba::opaque(0xDB_D8_C4)],
    [Rgba::opaque(0x7C_5A_38), Rgba::opaque(0xD4_AB_7C)],
    [Rgba::opaque(0x62_6C_76), Rgba::opaque(0xBC_C7_D0)],
    [Rgba::opaque(0x09_4E_4A), Rgba::opaque(0x58_A8_A1)],
    [Rgba::opaque(0xB4_B1_A9), Rgba::opaque(0xEE_EC_E6)],
    [Rgba::opaque(0x7F_8E_9A).with_cover(SKIN_COVER), Rgba::opaque(0xBD_CC_D6).with_cover(SKIN_COVER)],
    [Rgba::opaque(0x39_43_4D), Rgba::opaque(0x5F_6C_79)],
    [Rgba::opaque(0xF0_ED_E5), Rgba::opaque(0xF4_F1_EA)],
];

const DARK_SURFACES: [[Rgba; 2]; 8] = [
    [Rgba::opaque(0x43_41_33), Rgba::opaque(0x95_91_79)],
    [Rgba::opaque(0x44_2F_1B), Rgba::opaque(0x92_68_3D)],
    [Rgba::opaque(0x30_37_3E), Rgba::opaque(0x6C_79_86)],
    [Rgba::opaque(0x1A_62_5A), Rgba::opaque(0x63_DA_C9)],
    [Rgba::opaque(0x26_28_2A), Rgba::opaque(0x4B_4E_51)],
    [Rgba::opaque(0x3C_46_4F).with_cover(SKIN_COVER), Rgba::opaque(0x6A_78_85).with_cover(SKIN_COVER)],
    [Rgba::opaque(0x56_61_6C), Rgba::opaque(0x8D_9A_A8)],
    [Rgba::opaque(0x1D_20_23), Rgba::opaque(0x1F_22_25)],
];
