//! The desk behind three functions that a page can call: make room for a question, ask, and find the answer.
//!
//! Text crosses as UTF-8 in this module's memory. One page, one thread: the desk and the two texts live in thread-local cells. No
//! pointer is followed here; the page reads and writes between calls, where this module says.

use std::cell::RefCell;

use untaught_page::Desk;

thread_local! {
    static DESK: RefCell<Desk> = RefCell::new(Desk::default());
    static QUESTION: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    static ANSWER: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Makes room for a question of so many bytes, and says where it is to be written.
#[allow(unsafe_code, reason = "the name by which the page finds it")]
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    QUESTION.with_borrow_mut(|question| {
        question.clear();
        question.resize(bytes, 0);
        question.as_mut_ptr()
    })
}

/// Answers the question that was written, and says how many bytes the answer has.
#[allow(unsafe_code, reason = "the name by which the page finds it")]
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    let question = QUESTION.take();
    let question = String::from_utf8_lossy(&question);
    let answer = DESK.with_borrow_mut(|desk| desk.answer(&question));
    ANSWER.with_borrow_mut(|kept| {
        *kept = answer;
        kept.len()
    })
}

/// Where the answer stands, until the next question.
#[allow(unsafe_code, reason = "the name by which the page finds it")]
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    ANSWER.with_borrow(|kept| kept.as_ptr())
}
