"""The command line: arguments and printing; decides nothing."""
