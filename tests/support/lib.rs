//! What several test programs share.

pub mod cases;
pub mod dice;
pub mod drawn;
pub mod editor;
pub mod fixes;
pub mod folder;
pub mod laws;
pub mod layout;
pub mod missing_step;
pub mod pages;
pub mod program;
