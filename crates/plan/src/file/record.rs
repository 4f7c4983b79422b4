//! From a record's lines in the table of `v1` to its mirror in the file, and the ways between the two.
//!
//! A line is `field: Type;` for what every file has. What a file may leave out has one word more:
//! `written = default` is written all the same; `spared = default` is written where it differs;
//! `in_some = default` the same, within RON's `Some`; `plain` is an `Option` that stands plainly where it stands.

/// How a field stands in the file.
macro_rules! file_type {
    ($type:ty) => { <$type as Kept>::File };
    ($type:ty, plain) => { Spared<<$type as Plain>::File> };
    ($type:ty, in_some) => { Spared<Option<<$type as Kept>::File>> };
    ($type:ty, $how:ident) => { Spared<<$type as Kept>::File> };
}

macro_rules! enter {
    ($file:expr, $path:expr, $entry:expr, $type:ty) => {
        <$type as Kept>::enter($file, &$path, $entry)
    };
    ($file:expr, $path:expr, $entry:expr, $type:ty, plain) => {
        <$type as Plain>::enter($file, &$path, $entry)
    };
    ($file:expr, $path:expr, $entry:expr, $type:ty, in_some = $default:expr) => {
        <Option<$type> as Kept>::enter($file.0.flatten(), &$path, $entry).unwrap_or_else(|| $default)
    };
    ($file:expr, $path:expr, $entry:expr, $type:ty, $how:ident = $default:expr) => {
        $file.0.map_or_else(|| $default, |file| <$type as Kept>::enter(file, &$path, $entry))
    };
}

macro_rules! leave {
    ($value:expr, $path:expr, $exit:expr) => {
        Kept::leave($value, &$path, $exit)
    };
    ($value:expr, $path:expr, $exit:expr, plain) => {
        Plain::leave($value, &$path, $exit)
    };
    ($value:expr, $path:expr, $exit:expr, written = $default:expr) => {
        Spared(Some(Kept::leave($value, &$path, $exit)))
    };
    ($value:expr, $path:expr, $exit:expr, spared = $default:expr) => {
        Spared((*$value != $default).then(|| Kept::leave($value, &$path, $exit)))
    };
    ($value:expr, $path:expr, $exit:expr, in_some = $default:expr) => {
        Spared((*$value != $default).then(|| Some(Kept::leave($value, &$path, $exit))))
    };
}

/// How a record is laid out: `tall` ones have a line for each of their fields, the others are one line.
macro_rules! laid {
    ($name:ident [] $($field:ident)*) => {
        impl Laid for $name {}
    };
    ($name:ident [tall] $($field:ident)*) => {
        impl Laid for $name {
            fn lines(&self, page: &mut Page) {
                $(self.$field.field(stringify!($field), page);)*
            }
            fn field(&self, name: &str, page: &mut Page) {
                page.part(&format!("{name}: {}(", stringify!($name)), self, "),");
            }
            fn entry(&self, page: &mut Page) {
                page.part(concat!(stringify!($name), "("), self, "),");
            }
        }
    };
}

/// A record of the plan. `only` is a field of the file alone; `late` one that is read when all others are.
macro_rules! record {
    ($name:ident $(, $tall:ident)? {
        $([only $only:ident = $value:expr])?
        $($field:ident: $type:ty $(, $how:ident $(= $default:expr)?)?;)*
        $([late $late:ident as $told:ident: $told_type:ty, $entered:path, $left:path])?
    }) => {
        const _: () = {
            #[derive(Serialize, Deserialize)]
            #[serde(deny_unknown_fields)]
            pub(in crate::file) struct $name {
                $($only: u32,)?
                $(
                    $(#[serde(default, skip_serializing_if = "Spared::is_spared")] #[doc = stringify!($how)])?
                    $field: file_type!($type $(, $how)?),
                )*
                $(#[serde(default, skip_serializing_if = "Spared::is_spared")] $told: Spared<$told_type>,)?
            }

            impl Kept for crate::$name {
                type File = $name;
                fn enter(file: $name, path: &Path, entry: &mut Entry) -> Self {
                    let whole = Self {
                        $($field: enter!(
                            file.$field, path.field(stringify!($field)), entry, $type $(, $how $(= $default)?)?
                        ),)*
                        $($late: Default::default(),)?
                    };
                    $(let whole = Self { $late: $entered(file.$told, &whole), ..whole };)?
                    whole
                }
                fn leave(&self, path: &Path, exit: &Exit) -> $name {
                    $name {
                        $($only: $value,)?
                        $($field: leave!(
                            &self.$field, path.field(stringify!($field)), exit $(, $how $(= $default)?)?
                        ),)*
                        $($told: $left(self),)?
                    }
                }
            }

            laid!($name [$($tall)?] $($only)? $($field)* $($told)?);
        };
    };
}

/// A value of the plan that is one of several records, each written by its own name.
macro_rules! choice {
    ($name:ident { $($variant:ident $(($inner:ident))? {
        $($field:ident: $type:ty $(, $how:ident $(= $default:expr)?)?;)*
    })* }) => {
        const _: () = {
            #[derive(Serialize, Deserialize)]
            #[serde(deny_unknown_fields)]
            #[expect(clippy::large_enum_variant, reason = "it lives for the length of a reading")]
            pub(in crate::file) enum $name {
                $($variant { $(
                    $(#[serde(default, skip_serializing_if = "Spared::is_spared")] #[doc = stringify!($how)])?
                    $field: file_type!($type $(, $how)?),
                )* }),*
            }

            impl Kept for crate::$name {
                type File = $name;
                fn enter(file: $name, path: &Path, entry: &mut Entry) -> Self {
                    match file {
                        $($name::$variant { $($field),* } => {
                            $(let $field = enter!(
                                $field, path.field(stringify!($field)), entry, $type $(, $how $(= $default)?)?
                            );)*
                            one_of!($name $variant $(($inner))? { $($field),* })
                        })*
                    }
                }
                fn leave(&self, path: &Path, exit: &Exit) -> $name {
                    match self {
                        $(one_of!($name $variant $(($inner))? { $($field),* }) => $name::$variant { $(
                            $field: leave!($field, path.field(stringify!($field)), exit $(, $how $(= $default)?)?)
                        ),* }),*
                    }
                }
            }

            impl Laid for $name {}
        };
    };
}

/// A variant of the plan's own type: with its fields, or with a record.
macro_rules! one_of {
    ($name:ident $variant:ident { $($field:ident),* }) => { crate::$name::$variant { $($field),* } };
    ($name:ident $variant:ident ($inner:ident) { $($field:ident),* }) => {
        crate::$name::$variant(crate::$inner { $($field),* })
    };
}

/// Words that stand alike in the file and in the plan.
macro_rules! words {
    ($($name:ident: $($word:ident)*;)*) => { $(
        const _: () = {
            #[derive(Clone, Copy, Serialize, Deserialize)]
            pub(in crate::file) enum $name { $($word),* }

            impl Kept for in_plan::$name {
                type File = $name;
                fn enter(file: $name, _: &Path, _: &mut Entry) -> Self {
                    match file { $($name::$word => Self::$word),* }
                }
                fn leave(&self, _: &Path, _: &Exit) -> $name {
                    match self { $(Self::$word => $name::$word),* }
                }
            }

            impl Laid for $name {}
        };
    )* };
}

pub(super) use {choice, enter, file_type, laid, leave, one_of, record, words};
