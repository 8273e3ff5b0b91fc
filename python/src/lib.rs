//! binding
