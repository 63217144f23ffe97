//! The program: reads the world, asks the engine, writes all or nothing.

#![allow(dead_code)]

mod trouble;

fn main() {}
