#include "feed/io/output_files.hpp"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <optional>
#include <utility>
#include <vector>

#include "beside_file.hpp"
#include "feed/io/text_file.hpp"

namespace feed::io {
namespace {

Error output_error(const OutputFile& output, std::string allowed, std::string message) {
    Error error = file_error(ErrorCode::bad_argument, output.path, std::move(allowed),
                             std::move(message) + "; nothing was written");
    error.field = output.field;
    return error;
}

/// Do two paths name one file, there or not yet there?
bool one_file(const std::string& a, const std::string& b) {
    struct stat first {};
    struct stat second {};
    const bool first_there = ::stat(a.c_str(), &first) == 0;
    const bool second_there = ::stat(b.c_str(), &second) == 0;
    if (first_there != second_there) return false;
    if (first_there) return first.st_dev == second.st_dev && first.st_ino == second.st_ino;
    const auto name_of = [](const std::string& path) { return path.substr(path.rfind('/') + 1); };
    return name_of(a) == name_of(b) && ::stat(folder_of(a).c_str(), &first) == 0 &&
           ::stat(folder_of(b).c_str(), &second) == 0 && first.st_dev == second.st_dev &&
           first.st_ino == second.st_ino;
}

bool has_name_of_feed_file(std::string_view path) {
    for (const std::string_view ending : {".yaml", ".yml", ".json"})
        if (path.size() >= ending.size() && path.substr(path.size() - ending.size()) == ending)
            return true;
    return false;
}

/// Does a file that stands there begin as feed files do? Its first line that says something tells.
bool is_feed_file(const std::string& path) {
    const auto text = read_text_file(path);
    if (!text) return false;
    constexpr std::size_t start = 4096;
    const std::string_view head = std::string_view(*text).substr(0, start);
    const std::size_t key = head.find("libfeed");
    return key != std::string_view::npos &&
           head.substr(key).find(':') < std::string_view("libfeed\" :").size();
}

std::optional<Error> must_not_be_written(std::span<const OutputFile> outputs, std::size_t at,
                                         std::span<const std::string> inputs) {
    const OutputFile& output = outputs[at];
    for (const std::string& input : inputs) {
        if (one_file(output.path, input))
            return output_error(output, "another file than the one that is read",
                                "this is the file that is read");
    }
    for (std::size_t i = 0; i < at; ++i) {
        if (one_file(output.path, outputs[i].path))
            return output_error(output, "a file of its own for each",
                                "this is the file that " + outputs[i].field + " writes");
    }
    if (has_name_of_feed_file(output.path))
        return output_error(output, "a name such as tote.svg or tote.html",
                            "this is a name of a feed file");
    const auto facts = facts_of(output.path);
    if (!facts) return std::nullopt;
    const std::string_view kind = odd_kind(*facts);
    if (!kind.empty())
        return output_error(output, "a plain file, or a new name", "this is " + std::string(kind));
    const bool read_only = (facts->st_mode & (S_IWUSR | S_IWGRP | S_IWOTH)) == 0;
    if (read_only || ::access(output.path.c_str(), W_OK) != 0)
        return output_error(output, "a file that may be written, or a new name",
                            "this file may only be read");
    if (facts->st_nlink > 1)
        return output_error(output, "a file with one name, or a new name",
                            "this file has several names (hard links), and they would part");
    if (is_feed_file(output.path))
        return output_error(output, "a name such as tote.svg or tote.html",
                            "a feed file stands there");
    return std::nullopt;
}

/// Keeps the old file of an output under another name until all outputs stand.
class OldFile {
public:
    explicit OldFile(const std::string& path) : path_(path) {
        there_ = facts_of(path).has_value();
        if (!there_) return;
        kept_ = path + ".feed-old-" + std::to_string(::getpid());
        if (::link(path.c_str(), kept_.c_str()) != 0) kept_.clear();
    }
    OldFile(OldFile&& other) noexcept
        : path_(std::move(other.path_)),
          kept_(std::exchange(other.kept_, std::string())),
          there_(other.there_) {}
    OldFile& operator=(OldFile&&) = delete;
    OldFile(const OldFile&) = delete;
    OldFile& operator=(const OldFile&) = delete;
    ~OldFile() {
        if (!kept_.empty()) ::unlink(kept_.c_str());
    }
    void bring_back() noexcept {
        if (!there_) {
            ::unlink(path_.c_str());
        } else if (!kept_.empty() && std::rename(kept_.c_str(), path_.c_str()) == 0) {
            kept_.clear();
        }
    }

private:
    std::string path_;
    std::string kept_;
    bool there_ = false;
};

}  // namespace

Result<std::size_t> write_output_files(std::span<const OutputFile> outputs,
                                       std::span<const std::string> inputs) {
    Errors errors;
    for (std::size_t i = 0; i < outputs.size(); ++i)
        if (auto error = must_not_be_written(outputs, i, inputs)) errors.push_back(*error);
    if (!errors.empty()) return errors;
    std::vector<BesideFile> beside;
    for (const OutputFile& output : outputs) {
        auto written = BesideFile::write(output.path, output.text);
        if (!written) {
            Errors why = std::move(written).errors();
            why[0].field = output.field;
            return why;
        }
        beside.push_back(std::move(written).value());
    }
    std::vector<OldFile> old;
    for (std::size_t i = 0; i < outputs.size(); ++i) {
        old.emplace_back(outputs[i].path);
        if (beside[i].commit()) continue;
        const int number = errno;
        for (std::size_t done = 0; done < i; ++done)
            old[done].bring_back();
        return output_error(outputs[i], "a place that can be written",
                            "cannot write this file: " + reason_of(number));
    }
    return outputs.size();
}

Result<bool> may_be_created(const std::string& path) {
    if (!facts_of(path)) return true;
    return file_error(ErrorCode::not_writable, path, "a name that nothing has yet",
                      "something stands there already, and it is left as it is");
}

Result<std::size_t> create_text_file(const std::string& path, std::string_view text) {
    if (const auto stands = may_be_created(path); !stands) return stands.errors();
    auto beside = BesideFile::write(path, text);
    if (!beside) return std::move(beside).errors();
    if (beside->commit_new()) return text.size();
    if (const auto stands = may_be_created(path); !stands) return stands.errors();
    return file_error(ErrorCode::not_writable, path, "a place that can be written",
                      "cannot write this file: " + reason_of(errno) + "; nothing was written");
}

}  // namespace feed::io
