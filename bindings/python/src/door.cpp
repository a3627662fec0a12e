#include "feed/io/door.hpp"

#include "convert.hpp"

namespace feed::python {

void bind_door(py::module_& module) {
    module.def(
        "_answer_request",
        [](const std::string& request) {
            const py::gil_scoped_release released;
            return unwrap(io::answer_request(request));
        },
        py::arg("request"), R"doc(
The JSON answer to a request in JSON.

Parameters
----------
request : str
    A JSON object with the key ``verb`` and what the verb takes.

Returns
-------
str
    What ``feed VERB --json`` prints.)doc");
}

}  // namespace feed::python
