//! The model that `strutwork new` writes: a braced bay of our own invention, with comments that teach.

/// Its files, name and text.
pub(crate) const FILES: [(&str, &str); 6] = [
    ("model.toml", include_str!("../templates/starter/model.toml")),
    ("joints.csv", include_str!("../templates/starter/joints.csv")),
    ("tubes.csv", include_str!("../templates/starter/tubes.csv")),
    ("supports.csv", include_str!("../templates/starter/supports.csv")),
    ("loads.csv", include_str!("../templates/starter/loads.csv")),
    ("masses.csv", include_str!("../templates/starter/masses.csv")),
];
