; Items and steps go on in indented lines; every label and group heading stands at the margin.
; Two families of editors read this file: one knows @indent, the other @indent.begin and @indent.zero.
[(item) (step)] @indent @indent.begin
[(label) (group_heading) (stet)] @indent.zero
