// Command flowshelf watches a folder of cylinder-head flow sheets, price lists
// and stock books, and writes ranked comparison workbooks back to it.
package main

import "os"

func main() { os.Exit(execute(os.Args[1:], os.Stdout, os.Stderr)) }
