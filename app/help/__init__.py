"""Help: the words of the trade explained on little made-up seams that the program draws and reads itself."""
