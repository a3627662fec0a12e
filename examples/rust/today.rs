// What goes into a bin (invented) today, from Rust by the one door of the C library. Errors come back
// in the answer, so its text is all that is needed.
//
//     rustc today.rs -L FOLDER_OF_LIBFEED && ./today
use std::ffi::{c_char, c_int, c_void, CStr, CString};
use std::ptr;

#[link(name = "feed")]
extern "C" {
    fn feed_call(
        request: *const c_char,
        allocator: *const c_void,
        out: *mut *mut c_void,
        error: *mut c_void,
    ) -> c_int;
    fn feed_text_get(
        text: *const c_void,
        data: *mut *const c_char,
        length: *mut usize,
        error: *mut c_void,
    ) -> c_int;
    fn feed_text_free(text: *mut c_void);
}

/// The answer to a request, both JSON; the errors of a request that cannot be answered too.
fn call(request: &str) -> String {
    let request = CString::new(request).expect("no NUL in a request");
    let mut text = ptr::null_mut();
    let mut data = ptr::null();
    let mut length = 0;
    unsafe {
        feed_call(request.as_ptr(), ptr::null(), &mut text, ptr::null_mut());
        feed_text_get(text, &mut data, &mut length, ptr::null_mut());
        let answer = if data.is_null() {
            String::new()
        } else {
            CStr::from_ptr(data).to_string_lossy().into_owned()
        };
        feed_text_free(text);
        answer
    }
}

/// The lines of the first screen: one a line in the answer. An app reads them with its JSON library.
fn screen(answer: &str) -> Vec<String> {
    answer
        .lines()
        .skip_while(|line| !line.ends_with("\"text\": ["))
        .skip(1)
        .take_while(|line| line.trim() != "],")
        .map(|line| {
            let said = line.trim().trim_end_matches(',');
            said[1..said.len() - 1].replace("\\\"", "\"")
        })
        .collect()
}

fn main() {
    let today = call(
        r#"{"verb": "ration", "date": "2026-03-14", "things": ["300 g carrot", "50 g bacon"],
            "bin": "60 L tote", "worms": "1 lb", "temperature": "20 C"}"#,
    );
    for line in screen(&today) {
        println!("{line}");
    }
    let refused = call(r#"{"verb": "ration", "things": "2 furlongs carrot"}"#);
    println!("refused: {}", refused.contains("\"errors\""));
}
