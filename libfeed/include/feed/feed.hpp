#pragma once
// Everything public in the core. Start here.
