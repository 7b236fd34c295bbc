import sys

from halimeda._command import main

sys.exit(main())
