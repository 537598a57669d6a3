# Completes the command lines of weekband in fish 3 or later; see weekband help
# completion.
function __weekband_answer
    set -l before (commandline -opc)
    set -l typed (commandline -ct)
    set -l answers ($before[1] complete fish -- $before[2..-1] "$typed" 2>/dev/null)
    for text in $answers[3..-1]
        echo $text
    end
    switch "$answers[1]"
        case folders
            __fish_complete_directories "$typed"
        case files
            __fish_complete_path "$typed"
        case 'files *'
            set -l endings (string escape --style=regex (string split ' ' "$answers[1]")[2..-1])
            __fish_complete_path "$typed" | string match -re '(/|'(string join '|' $endings)')(\t|$)'
    end
end
complete -c weekband -f -a '(__weekband_answer)'
