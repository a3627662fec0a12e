#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "arguments.hpp"
#include "feed/io/feed_file.hpp"

namespace feed_command {

/// Whether an argument is a file: it ends in .yaml, .yml or .json, has a slash in it that is no
/// fraction, or is "-".
bool names_a_file(std::string_view word);
/// The first word of a call that names a file; "" where none does.
std::string named_file(const Arguments& arguments);

/// What errors call standard input.
inline constexpr std::string_view standard_input_name = "standard input";
/// All of standard input, or the first 8 MB and a little more, which the reader then refuses.
std::string standard_input();

/// Without --units the answer is in the units of its file, where that names any.
void take_units_of(const feed::io::FeedFile& file, Arguments& arguments);

/// The file that a name stands for, with its units taken; "-" is standard input. A file whose last
/// day lies a few days ahead, as that of a bin about to begin, is read as of today.
feed::Result<feed::io::FeedFile> read_named_file(Arguments& arguments, const std::string& name);

/// The files of several bins. Errors: those of all of them.
feed::Result<std::vector<feed::io::FeedFile>> read_named_files(
    Arguments& arguments, const std::vector<std::string>& names);

/// What a call is about, for every verb: the file that a word names, with what people have in the
/// other words ("3 apples, a cup of coffee grounds") in place of its own blend and balance; without
/// a file the bin is what --bin, --worms, --temperature and --squeeze describe. A balance takes the
/// words as what is at hand.
/// Errors: those of reading; bad_argument for a call without a word, for several files, and for a
/// file with options that describe another bin.
feed::Result<feed::io::FeedFile> read_file_or_entries(Arguments& arguments);

}  // namespace feed_command
