#!/bin/sh
# Opens the bench from wherever this folder lies.
cd "$(dirname "$0")" && exec ./pleatwright
