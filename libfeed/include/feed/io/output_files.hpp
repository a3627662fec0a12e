#pragma once
#include <span>
#include <string>

#include "feed/quantity/error.hpp"

namespace feed::io {

/// A file that a call is asked to write.
struct OutputFile {
    std::string field;  ///< what asked for it, such as "--svg"
    std::string path;
    std::string text;
};

/// Writes all files of a call, or none. A file that stands there is replaced only where it is a
/// plain one that may be written and is no feed file.
/// inputs: files the call has read. Errors: bad_argument for an output that is an input, another
/// output, a link, folder, device, pipe or socket, or a feed file; not_writable with the reason.
/// After an error every file is as it was. Threads: safe for different paths.
Result<std::size_t> write_output_files(std::span<const OutputFile> outputs,
                                       std::span<const std::string> inputs);

/// Whether nothing stands at a path yet, so that a file may be created there; an error that says so
/// where something does.
Result<bool> may_be_created(const std::string& path);

/// Writes a file that does not exist yet; never replaces one.
/// Errors: not_writable when something stands there, or with the reason. Threads: safe.
Result<std::size_t> create_text_file(const std::string& path, std::string_view text);

}  // namespace feed::io
