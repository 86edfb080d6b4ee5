//! The build tool of the project.

fn main() {
    println!("xtask");
}
