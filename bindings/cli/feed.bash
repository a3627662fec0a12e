# bash completion for feed; made from the list of commands.
_feed() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        mapfile -t COMPREPLY < <(compgen -W "table show blend balance ration check forecast observe signs trial version --help" -- "$word")
        return
    fi
    case ${COMP_WORDS[1]}:$before in
        table:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        show:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        blend:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        balance:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        balance:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        ration:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        ration:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        check:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--away) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        forecast:--days) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--svg) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        forecast:--sheet) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        forecast:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        observe:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        observe:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        signs:--bed) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        signs:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        trial:--sheet) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        trial:--paper) mapfile -t COMPREPLY < <(compgen -W "a4 letter" -- "$word"); return ;;
        trial:--svg) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        trial:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
    esac
    case ${COMP_WORDS[1]} in
        table)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--json --units --help" -- "$word")
            fi ;;
        show)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--json --units --help" -- "$word")
            fi ;;
        blend)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        balance)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        ration)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        check)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--date --why --away --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        forecast)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--days --svg --sheet --date --why --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        observe)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--date --force --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        signs)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--bed --json --units --help" -- "$word")
            fi ;;
        trial)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--why --sheet --paper --yaml --svg --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        version)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--json --help" -- "$word")
            fi ;;
    esac
}
complete -o filenames -F _feed feed
