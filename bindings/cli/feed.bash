# bash completion for feed; made from the list of commands.
_feed() {
    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
    COMPREPLY=()
    if ((COMP_CWORD == 1)); then
        mapfile -t COMPREPLY < <(compgen -W "table show blend balance ration check forecast harvest refresh start note observe signs trial week stock totals worms heap call version --help" -- "$word")
        return
    fi
    case ${COMP_WORDS[1]}:$before in
        table:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        show:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        show:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        blend:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        balance:--bin) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        balance:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        balance:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        balance:--squeeze) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        balance:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        balance:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        ration:--bin) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        ration:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        ration:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        ration:--squeeze) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        ration:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        ration:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        check:--bin) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--squeeze) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--away) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        check:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        forecast:--bin) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--squeeze) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--days) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--svg) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        forecast:--sheet) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        forecast:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        forecast:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        harvest:--way) mapfile -t COMPREPLY < <(compgen -W "aside light trays half" -- "$word"); return ;;
        harvest:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        harvest:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        refresh:--change) mapfile -t COMPREPLY < <(compgen -W "bedding flush dry split move away winter" -- "$word"); return ;;
        refresh:--share) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        refresh:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        refresh:--away) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        refresh:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        refresh:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        start:--bin) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--container) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--size) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--age) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--bedding) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--squeeze) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--title) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        start:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        note:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        note:--by) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        note:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        observe:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        observe:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        signs:--bed) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        signs:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        signs:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        trial:--sheet) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        trial:--paper) mapfile -t COMPREPLY < <(compgen -W "a4 letter" -- "$word"); return ;;
        trial:--svg) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        trial:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        week:--have) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        week:--openings) mapfile -t COMPREPLY < <(compgen -W "1 2 3" -- "$word"); return ;;
        week:--sheet) mapfile -t COMPREPLY < <(compgen -f -- "$word"); return ;;
        week:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        week:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        stock:--collect) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        stock:--for) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        stock:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        stock:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        totals:--since) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        totals:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        totals:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        worms:--people) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--meals) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--coffee) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--census) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--sample) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--bin) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--temperature) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        worms:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
        heap:--worms) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        heap:--date) mapfile -t COMPREPLY < <(compgen -W "" -- "$word"); return ;;
        heap:--units) mapfile -t COMPREPLY < <(compgen -W "metric us" -- "$word"); return ;;
    esac
    case ${COMP_WORDS[1]} in
        table)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--scraps --fruit --bedding --manure --lime --little --never --json --units --help" -- "$word")
            fi ;;
        show)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--worms --numbers --json --units --help" -- "$word")
            fi ;;
        blend)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        balance)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--bin --worms --temperature --squeeze --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        ration)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--bin --worms --temperature --squeeze --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        check)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--bin --worms --temperature --squeeze --date --why --away --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        forecast)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--bin --worms --temperature --squeeze --days --svg --sheet --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        harvest)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--way --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        refresh)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--change --share --temperature --away --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        start)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--bin --container --size --age --worms --bedding --squeeze --temperature --title --date --force --json --units --help" -- "$word")
            fi ;;
        note)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--date --by --force --json --units --help" -- "$word")
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
                mapfile -t COMPREPLY < <(compgen -W "--bed --date --why --json --units --help" -- "$word")
            fi ;;
        trial)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--why --sheet --paper --yaml --svg --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        week)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--have --openings --sheet --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        stock)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--collect --for --date --why --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        totals)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--since --date --why --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        worms)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--people --meals --coffee --census --sample --bin --worms --temperature --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        heap)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--worms --date --why --strict --json --units --help" -- "$word")
            else
                mapfile -t COMPREPLY < <(compgen -f -- "$word")
            fi ;;
        call)
            if [[ $word == -* ]]; then
                mapfile -t COMPREPLY < <(compgen -W "--json --help" -- "$word")
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
