# Completes the command lines of weekband in bash 4 or later; see weekband help
# completion.
_weekband() {
	local line kind cur text ending answers=()
	COMPREPLY=()
	line=$(LC_ALL=C; printf %s "${COMP_LINE:0:COMP_POINT}")
	mapfile -t answers < <("${1/#\~\//$HOME/}" complete bash -- "$line" 2>/dev/null)
	kind=${answers[0]} cur=${answers[1]}
	for text in "${answers[@]:2}"; do
		COMPREPLY+=("${text%%$'\t'*}")
	done
	case $kind in
	folders) mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -d -- "$cur") ;;
	files) mapfile -t COMPREPLY < <(compgen -f -- "$cur") ;;
	files\ *)
		mapfile -t COMPREPLY < <(compgen -d -- "$cur")
		for ending in ${kind#files }; do
			mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -f -X "!*$ending" -- "$cur")
		done
		;;
	esac
	[[ ${COMPREPLY[0]} == -* ]] || compopt -o filenames # quotes spaces
}
complete -F _weekband weekband
