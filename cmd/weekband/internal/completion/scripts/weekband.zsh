#compdef weekband
# Completes the command lines of weekband in zsh 5 or later; see weekband help
# completion.
_weekband() {
	local -a answers texts lines
	local kind text
	local -i width
	answers=("${(@f)$("${(Q)words[1]/#\~\//$HOME/}" complete zsh -- "${(@Q)words[2,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)}")
	kind=$answers[1]
	compset -P '--*='
	for text in "${(@)answers[3,-1]}"; do
		texts+=("${text%%$'\t'*}")
		((width < $#texts[-1])) && width=$#texts[-1]
	done
	for text in "${(@)answers[3,-1]}"; do
		lines+=("${(r:width:)${text%%$'\t'*}}  ${text#*$'\t'}")
	done
	(($#texts)) && compadd -l -M 'm:{a-zA-Z}={A-Za-z}' -d lines -a texts
	case $kind in
	folders) _files -/ ;;
	files) _files ;;
	files\ *) _files -g "*(${(j:|:)${(s: :)${kind#files }}})" ;;
	esac
}
if [[ ${funcstack[1]} == _weekband ]]; then
	_weekband "$@"
else
	compdef _weekband weekband
fi
