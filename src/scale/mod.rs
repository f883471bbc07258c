//! From one amount to another: forms of a material.

pub mod forms;
