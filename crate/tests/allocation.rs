//! A sweep allocates nothing, whatever is in the chain.
#![allow(unsafe_code, missing_docs)]

use stageohm::Complex64;
use stageohm::network::{AUDIO_BAND, Element, Line, OnePort, Path, log_sweep};
use std::alloc::{GlobalAlloc, Layout, System};
use std::cell::Cell;

thread_local! {
    static COUNT: Cell<usize> = const { Cell::new(0) };
}

struct Counting;

// SAFETY: passes every request on to the system's allocator.
unsafe impl GlobalAlloc for Counting {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        COUNT.with(|count| count.set(count.get() + 1));
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, pointer: *mut u8, layout: Layout) {
        unsafe { System.dealloc(pointer, layout) }
    }
}

#[global_allocator]
static ALLOCATOR: Counting = Counting;

#[test]
fn a_sweep_allocates_nothing() {
    let line = Line { length: 10.0, r: 0.1, l: 0.6e-6, g: 0.0, c: 100e-12 };
    let branch = Path::new(OnePort::SHORT, OnePort::OPEN).with("", Element::Line(line)).chain;
    let path = Path::new(
        OnePort::Series(vec![OnePort::resistor(6e3), OnePort::parallel_rl(1e6, 2.5)]),
        OnePort::parallel_rc(1e6, 50e-12),
    )
    .with("", Element::Shunt(OnePort::Parallel(vec![OnePort::capacitor(1e-10), OnePort::series_rc(250e3, 22e-9)])))
    .with("", Element::Branch(branch, OnePort::resistor(1e6)))
    .with("", Element::Line(line))
    .with("", Element::Transformer(12.0))
    .with("", Element::Buffer(0.5));
    let frequencies = log_sweep(&AUDIO_BAND, 1003);
    let mut transfers = vec![Complex64::default(); frequencies.len()];
    let before = COUNT.with(Cell::get);
    path.sweep(&frequencies, &mut transfers);
    assert_eq!(COUNT.with(Cell::get), before);
    assert!(transfers.iter().all(|transfer| transfer.norm() > 0.0));
}
