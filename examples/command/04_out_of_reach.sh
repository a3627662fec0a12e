# A target that cannot be met: an allotment (invented) has a flow-through bin, a heap of zucchini and
# hardly anything dry. Which wishes conflict, how near one comes, and what mends it. The exit code is 1.
feed balance "$(dirname "$0")/../zucchini_glut.yaml"
