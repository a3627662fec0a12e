# Sourced by the scripts of this project: install_missing PACKAGE... puts on what is not there yet.
# Says what it installs; needs root or sudo only when something is missing.

install_missing() {
    missing=
    for package in "$@"; do
        case $(dpkg-query -W -f='${Status}' "$package" 2>/dev/null) in
        "install ok installed") ;;
        *) missing="$missing $package" ;;
        esac
    done
    [ -n "$missing" ] || return 0
    echo "Installing through apt:$missing"
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || {
            echo "Run this as root, or install sudo, or install by hand:$missing" >&2
            return 1
        }
        as_root=sudo
    fi
    log=$(mktemp)
    # shellcheck disable=SC2086  # the list is split into words on purpose
    if $as_root apt-get update -q >"$log" 2>&1 </dev/null &&
        $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends \
            $missing >>"$log" 2>&1 </dev/null; then
        rm -f "$log"
    else
        tail -n 20 "$log" >&2
        rm -f "$log"
        return 1
    fi
}
